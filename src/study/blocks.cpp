#include "study/blocks.h"

#include <oneapi/tbb/blocked_range.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>

namespace flattail::study {

namespace {

// Blocks of 64 days handed out at once: half a millisecond of work, far above the cost of
// handing it out, far below the length of a study.
constexpr std::size_t kGrain = 4;

}  // namespace

BlockExecutor make_parallel_executor(int threads) {
    const int wanted = threads > 0 ? threads : oneapi::tbb::task_arena::automatic;
    return [wanted](std::size_t count, const auto& work) {
        oneapi::tbb::task_arena arena(wanted);
        arena.execute([&] {
            using Range = oneapi::tbb::blocked_range<std::size_t>;
            oneapi::tbb::parallel_for(Range(0, count, kGrain), [&](const Range& range) {
                work(range.begin(), range.end());
            });
        });
    };
}

BlockExecutor make_serial_executor() {
    return [](std::size_t count, const auto& work) { work(0, count); };
}

}  // namespace flattail::study

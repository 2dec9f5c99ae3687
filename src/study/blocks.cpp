#include "study/blocks.h"

#include <oneapi/tbb/blocked_range.h>
#include <oneapi/tbb/global_control.h>
#include <oneapi/tbb/parallel_for.h>
#include <oneapi/tbb/task_arena.h>

#include <optional>

namespace flattail::study {

namespace {

// Blocks of 64 days handed out at once: half a millisecond of work, far above the cost of
// handing it out, far below the length of a study.
constexpr std::size_t kGrain = 4;

}  // namespace

BlockExecutor make_parallel_executor(int threads) {
    const int wanted = threads > 0 ? threads : oneapi::tbb::task_arena::automatic;
    return [wanted](std::size_t count, const auto& work) {
        // More threads than cores are allowed, as tests of determinism ask for; without
        // this TBB would print a warning and use fewer.
        std::optional<oneapi::tbb::global_control> allowed;
        if (wanted > 0) {
            allowed.emplace(oneapi::tbb::global_control::max_allowed_parallelism,
                            static_cast<std::size_t>(wanted));
        }
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

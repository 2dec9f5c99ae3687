// Runs independent pieces of work side by side. The only place that knows about threads.
#pragma once

#include <cstddef>
#include <functional>

namespace flattail::study {

/// Calls work(begin, end) for disjoint ranges that cover [0, count), from up to `threads`
/// threads (0: all cores). Which thread gets what is not fixed; results must not depend
/// on it.
using BlockExecutor = std::function<void(
    std::size_t count,
    const std::function<void(std::size_t begin, std::size_t end)>& work)>;

/// oneTBB over ranges of a few blocks.
BlockExecutor make_parallel_executor(int threads);

/// One range after the other on this thread.
BlockExecutor make_serial_executor();

}  // namespace flattail::study

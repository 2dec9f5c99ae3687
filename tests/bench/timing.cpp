#include "bench/timing.h"

#include <time.h>

#include <algorithm>

namespace flattail::bench {

namespace {

double read_clock_s(clockid_t id) {
    timespec now{};
    clock_gettime(id, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

double time_work(const Work& work, Clock clock) {
    const double start = clock();
    work();
    return clock() - start;
}

}  // namespace

double read_cpu_s() { return read_clock_s(CLOCK_PROCESS_CPUTIME_ID); }

double read_wall_s() { return read_clock_s(CLOCK_MONOTONIC); }

double find_median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t n = values.size();
    return n == 0 ? 0.0 : 0.5 * (values[(n - 1) / 2] + values[n / 2]);
}

Pair time_by_turns(int rounds, const Work& first, const Work& second, Clock clock) {
    first();
    second();
    std::vector<double> firsts, seconds, ratios;
    for (int round = 0; round < rounds; ++round) {
        firsts.push_back(time_work(first, clock));
        seconds.push_back(time_work(second, clock));
        ratios.push_back(firsts.back() / seconds.back());
    }
    return {find_median(firsts), find_median(seconds), find_median(ratios)};
}

}  // namespace flattail::bench

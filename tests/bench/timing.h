// Paired timing: two pieces of work by turns in one process, so that what slows the
// machine slows both, and their ratio stays.
#pragma once

#include <functional>
#include <vector>

namespace flattail::bench {

/// CPU time of this process, all threads, s.
double read_cpu_s();

/// Time that has passed, s.
double read_wall_s();

double find_median(std::vector<double> values);

using Work = std::function<void()>;
using Clock = double (*)();

/// Medians over the rounds; the ratio is the median of each round's own first / second.
struct Pair {
    double first_s = 0.0;
    double second_s = 0.0;
    double ratio = 0.0;
};

/// first, second, first, second ... after one round of each that is not counted.
Pair time_by_turns(int rounds, const Work& first, const Work& second,
                   Clock clock = read_cpu_s);

}  // namespace flattail::bench

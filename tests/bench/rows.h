// The rows of the benchmark, in the order in which they are printed.
#pragma once

#include <cstdint>
#include <string>

namespace flattail::bench {

/// How much is spent on a figure. The quick effort shows that every row runs; its ratios
/// are rough.
struct Effort {
    int rounds = 7;         // of every paired timing
    int growth_rounds = 5;  // of every size
    std::int64_t races = 100'000;
    std::int64_t growth_races = 16'000;
    std::int64_t plain_races = 2'000'000;  // the check of rare figures
    int seeds = 200;
    std::string python = "/usr/bin/python3";  // one that knows NumPy
};

inline Effort make_quick_effort() { return {3, 1, 20'000, 6'000, 200'000, 20}; }

/// The bare kernel against the divider of this processor.
void add_kernel_rows(const Effort& effort);
/// The bare kernel against what one would write instead. False when they disagree about
/// a ride.
bool add_baseline_rows(const Effort& effort);
/// What drawing, flats and summing up take of a whole race.
void add_share_rows(const Effort& effort);
/// Threads, sizes and memory.
void add_growth_rows(const Effort& effort);
/// How well the answer is known from so many days.
void add_answer_rows(const Effort& effort);

/// With this first word the program is the child of the memory row.
constexpr const char* kMemoryStudy = "--memory-study";

/// One study of lakeside and nothing else; prints the most memory it held, kB.
void run_memory_study(std::int64_t races);

}  // namespace flattail::bench

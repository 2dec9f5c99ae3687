// Runs a study: draws race days, rides every setup through each, and says what was found.
#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/scenario.h"

namespace flattail {

/// Stratified: days with flats are drawn more often and weighted down; the same answer
/// from fewer days. Plain: every day counts the same.
enum class DrawKind { kStratified, kPlain };

/// Best: the fastest instruction set of this machine. The others give the same bits and
/// exist for tests and comparison.
enum class InstructionChoice { kBest, kBaseline, kV3, kV4 };

/// What a study may spend, and how. Every option leaves the physics alone.
struct StudyOptions {
    /// Race days to draw; at least 64. More days: smaller computing error (1 /
    /// sqrt(days)), proportional time and memory (about 100 bytes per ride at the peak,
    /// measured).
    std::int64_t races = 100000;
    /// Stop as soon as every mean difference between setups (judged time) is known to
    /// this half-width, 95 %, seconds; 0 rides all races. Looks after 4,096 days and each
    /// doubling, so the answer does not depend on threads. Coverage after stopping is
    /// tested.
    double within_s = 0.0;
    /// Any number. The same seed gives the same days for every setup list and thread
    /// count.
    std::uint64_t seed = 1;
    /// Threads to use; 0 takes all cores. Never changes a result.
    int threads = 0;
    DrawKind draw = DrawKind::kStratified;
    InstructionChoice instructions = InstructionChoice::kBest;
    /// Keep every ride in Findings::days, for days.csv. Costs about 100 bytes per ride.
    bool keep_days = false;
    /// Called with the share done in [0, 1], from one thread at a time; may be empty.
    std::function<void(double)> progress;
    /// Asked before each batch of days; true ends the study with the days done so far.
    std::function<bool()> should_stop;
};

/// Rides the whole study.
/// Errors: InvalidInput when options are out of range; OurMistake when a ride was not
/// solved.
/// Accuracy: the same bits for any thread count and instruction set.
Findings run_study(const Scenario& scenario, const StudyOptions& options);

/// How far one uncertain value could move the answer: its 95th percentile against its
/// 5th, everything else drawn as ever.
struct ValueWeight {
    std::string name;           // as UsedValue::name
    double difference_s = 0.0;  // of the mean difference that moves most (judged time)
    int setup = 0;              // whose difference that is
    double finish_s = 0.0;      // of the mean of the setup compared against
};

/// Rides a few thousand common days twice for every uncertain value of the scenario.
/// `options` gives seed, threads, progress and should_stop; the rest is not read.
/// Accuracy: good enough to rank; a few seconds where a value acts through flats
/// Errors:   as run_study
std::vector<ValueWeight> weigh_values(const Scenario& scenario,
                                      const StudyOptions& options);

}  // namespace flattail

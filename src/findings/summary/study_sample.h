// The outcomes of a study as samples: finish times, judged times, sorted once.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "findings/sample/weighted_sample.h"
#include "outcome/outcomes.h"
#include "scenario/model.h"

namespace flattail::findings {

/// Both readings of every setup. *Finish*: +infinity without a finish. *Judged*: one
/// fixed time for such days, the same for all setups: the cutoff, else the typical finish
/// of the setup compared against plus what a day without a finish costs. METHOD 10.0
struct StudySample {
    const outcome::Outcomes* outcomes = nullptr;
    Design design;
    double judged_no_finish_s = 0.0;
    std::vector<std::vector<double>> finish_s;            // [setup][day]
    std::vector<std::vector<double>> judged_s;            // [setup][day]
    std::vector<std::unique_ptr<WeightedSample>> finish;  // [setup]
    std::vector<std::unique_ptr<WeightedSample>> judged;  // [setup]

    std::size_t setups() const { return finish_s.size(); }
    std::size_t days() const { return design.weight.size(); }
};

/// Calls work(begin, end) for disjoint ranges that cover [0, count), perhaps at once.
using Runner = std::function<void(
    std::size_t count,
    const std::function<void(std::size_t begin, std::size_t end)>& work)>;

inline void run_at_once(std::size_t count,
                        const std::function<void(std::size_t, std::size_t)>& work) {
    work(0, count);
}

/// The first `days` days. The outcomes must outlive the sample.
std::unique_ptr<StudySample> sort_outcomes(const outcome::Outcomes& outcomes,
                                           const scenario::Model& model, std::size_t days,
                                           const Runner& run = run_at_once);

}  // namespace flattail::findings

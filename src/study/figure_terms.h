// The figures of a study that are means over its days, and what each day adds to them.
#pragma once

#include <Eigen/Core>
#include <functional>
#include <vector>

#include "findings/summary/study_sample.h"
#include "flattail/findings.h"

namespace flattail::study {

/// A figure and its value on one day.
struct FigureTerm {
    Figure* figure = nullptr;
    double mean = 0.0;  // weighted mean over the days
    bool is_chance = true;
    std::vector<int> setups;  // whose rides it is made of
    std::function<double(std::size_t day)> value;
};

/// Every such figure of the setups and pairs; values are looked up in `sample`, figures
/// changed in `findings`, both must outlive the list.
std::vector<FigureTerm> list_terms(const findings::StudySample& sample,
                                   const scenario::Model& model, Findings& findings);

/// Judged time of a setup minus that of another; puts the weighted mean into `mean`.
FigureTerm make_difference(const findings::StudySample& sample, int setup, int against,
                           Figure& mean);

/// weight x (value - mean) of the days from `first` on.
void fill_term(const findings::StudySample& sample, const FigureTerm& term,
               std::size_t first, Eigen::Ref<Eigen::VectorXd> column);

}  // namespace flattail::study

// From sorted outcomes to the figures that people read.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "findings/summary/study_sample.h"
#include "flattail/findings.h"

namespace flattail::findings {

/// Percentiles, chances and tail of one setup.
SetupFindings summarise_setup(const StudySample& sample, const scenario::Model& model,
                              std::size_t setup);

/// One setup against the one compared with; what is not known is filled in elsewhere.
PairFindings summarise_pair(const StudySample& sample, const scenario::Model& model,
                            std::size_t setup);

/// All setups over common edges, the first goal among them.
HistogramFindings summarise_histogram(const StudySample& sample,
                                      const scenario::Model& model);

/// The percentiles that tables show.
const std::vector<double>& listed_percents();

/// How a day can end without a finish, with the words of its row.
std::vector<std::pair<ride::Ending, std::string>> list_causes(
    const scenario::Model& model);

Figure to_figure(const Estimate& estimate);

}  // namespace flattail::findings

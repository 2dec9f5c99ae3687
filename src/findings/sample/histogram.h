// Race days out of 100 by finish time.
#pragma once

#include <span>
#include <vector>

#include "findings/sample/estimate.h"
#include "findings/sample/weighted_sample.h"

namespace flattail::findings {

/// share[0]: before edge[0]; share[k]: from edge[k-1] to before edge[k]; the last one
/// holds everything from the last edge on, days without a finish among it.
struct Histogram {
    std::vector<double> edge;
    std::vector<Estimate> share;
};

/// Edges ascending, at least one.
Histogram count_by_edges(const WeightedSample& sample, std::span<const double> edge);

/// Round edges, at most kMostInnerBins bins between them, covering the middle 96 % of
/// every sample; edges are anchor_s plus whole steps, so that a goal given as anchor is
/// an edge.
/// Units: seconds
std::vector<double> choose_time_edges(std::span<const WeightedSample* const> samples,
                                      double anchor_s);

/// Ten numbers of a line fit 80 columns beside a name; more would not.
inline constexpr int kMostInnerBins = 10;

}  // namespace flattail::findings

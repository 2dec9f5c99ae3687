// Variance shares of inputs or groups of them, from a model that can be run again.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <vector>

#include "findings/sample/estimate.h"

namespace flattail::findings {

/// Fills value[row] for points[row][column], row by row, all in the unit cube.
using UnitCubeModel =
    std::function<void(std::span<const double> points, std::span<double> value)>;

/// Two independent matrices of the same shape, row by row.
struct UnitCubePair {
    std::span<const double> a;
    std::span<const double> b;
    std::size_t columns = 0;
};

struct SobolIndex {
    Estimate first;  ///< share of the variance explained by the group alone
    Estimate total;  ///< share that vanishes if all but the group were known
};

struct SobolIndices {
    double variance = 0;
    std::vector<SobolIndex> group;
};

/// First-order and total indices of groups of columns, for rows x (groups + 2) model
/// runs.
/// Range: at least two rows; a group lists each of its columns once
/// Source: METHOD 10.22, 10.23 (Saltelli et al. 2010, table 2 (b); Jansen 1999)
SobolIndices estimate_indices(const UnitCubePair& points,
                              std::span<const std::vector<std::size_t>> groups,
                              const UnitCubeModel& model);

}  // namespace flattail::findings

#include "findings/indices.h"

#include <cmath>

namespace flattail::findings {
namespace {

using Values = std::vector<double>;

double mean_of(const Values& values) {
    double sum = 0;
    for (const double value : values) sum += value;
    return sum / static_cast<double>(values.size());
}

// Mean of top over mean of bottom, with the error of the ratio.
Estimate estimate_ratio(const Values& top, const Values& bottom) {
    const double below = mean_of(bottom);
    const double ratio = mean_of(top) / below;
    double squares = 0;
    for (std::size_t row = 0; row < top.size(); ++row) {
        const double influence = (top[row] - ratio * bottom[row]) / below;
        squares += influence * influence;
    }
    const double rows = static_cast<double>(top.size());
    return {ratio, std::sqrt(squares / (rows * (rows - 1)))};
}

// Matrix A with the group's columns taken from B.
std::vector<double> mix_columns(const UnitCubePair& points,
                                const std::vector<std::size_t>& group) {
    std::vector<double> mixed(points.a.begin(), points.a.end());
    for (std::size_t row = 0; row < mixed.size(); row += points.columns)
        for (const std::size_t column : group) {
            FLATTAIL_EXPECTS(column < points.columns);
            mixed[row + column] = points.b[row + column];
        }
    return mixed;
}

// Values at A and B about their common mean: the products below then carry the variance
// alone and not the square of the mean.
struct Runs {
    Values a, b, variance_part;
    double mean = 0;
};

Runs run_both(const UnitCubePair& points, const UnitCubeModel& model) {
    const std::size_t rows = points.a.size() / points.columns;
    Runs runs{Values(rows), Values(rows), Values(rows), 0};
    model(points.a, runs.a);
    model(points.b, runs.b);
    runs.mean = 0.5 * (mean_of(runs.a) + mean_of(runs.b));
    for (std::size_t row = 0; row < rows; ++row) {
        runs.a[row] -= runs.mean;
        runs.b[row] -= runs.mean;
        runs.variance_part[row] =
            0.5 * (runs.a[row] * runs.a[row] + runs.b[row] * runs.b[row]);
    }
    return runs;
}

}  // namespace

SobolIndices estimate_indices(const UnitCubePair& points,
                              std::span<const std::vector<std::size_t>> groups,
                              const UnitCubeModel& model) {
    FLATTAIL_EXPECTS(points.columns > 0 && points.a.size() == points.b.size());
    FLATTAIL_EXPECTS(points.a.size() >= 2 * points.columns);
    const Runs runs = run_both(points, model);
    const std::size_t rows = runs.a.size();
    SobolIndices found;
    found.variance = mean_of(runs.variance_part);
    Values mixed(rows), first(rows), total(rows);
    for (const auto& group : groups) {
        model(mix_columns(points, group), mixed);
        for (std::size_t row = 0; row < rows; ++row) {
            const double step = mixed[row] - runs.mean - runs.a[row];
            first[row] = runs.b[row] * step;
            total[row] = 0.5 * step * step;
        }
        found.group.push_back({estimate_ratio(first, runs.variance_part),
                               estimate_ratio(total, runs.variance_part)});
    }
    return found;
}

}  // namespace flattail::findings

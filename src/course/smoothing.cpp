#include "course/smoothing.h"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <cmath>
#include <limits>

#include "base/expects.h"

namespace flattail::course {
namespace {

constexpr double kTwoPi = 6.283185307179586;
/// Morozov's factor: how far above the noise the residual may go, for the error of the
/// noise seen. Below 1 noise stays in the road as corners and steps; a fit that follows a
/// part of the noise (generalised cross-validation does) leaves hundreds of false
/// corners.
constexpr double kDiscrepancyFactor = 1.1;
/// Noise is looked for over this distance at least: nearer readings share their error.
constexpr double kNoiseLag_m = 20.0;
/// Fewer fourth differences than this say nothing about noise.
constexpr std::size_t kFewestDifferences = 20;
/// Halvings of the range of log cutoff; 8 leave it within 1 %.
constexpr int kBisections = 8;
/// Passes of smoothing and measuring along the smoothed line. The second removes the
/// length that noise and stops had added to the first.
constexpr int kPasses = 2;
/// Median of |z| for a standard normal z.
constexpr double kNormalMedian = 0.6744897501960817;
/// Root of the sum of squares of the coefficients 1, -4, 6, -4, 1.
constexpr double kFourthDifferenceNorm = 8.366600265340756;

using Columns = std::vector<std::vector<double>>;

/// D'D of the second differences D of a column; none is taken across a kink.
Eigen::SparseMatrix<double> build_penalty(int count, const std::vector<int>& kinks) {
    std::vector<Eigen::Triplet<double>> entries;
    entries.reserve(static_cast<std::size_t>(count) * 9);
    const double weight[3] = {1.0, -2.0, 1.0};
    for (int row = 0; row + 2 < count; ++row) {
        if (std::find(kinks.begin(), kinks.end(), row + 1) != kinks.end()) {
            continue;
        }
        for (int a = 0; a < 3; ++a) {
            for (int b = 0; b < 3; ++b) {
                entries.emplace_back(row + a, row + b, weight[a] * weight[b]);
            }
        }
    }
    Eigen::SparseMatrix<double> penalty(count, count);
    penalty.setFromTriplets(entries.begin(), entries.end());
    return penalty;
}

class Smoother {
  public:
    Smoother(int count, double spacing_m, const std::vector<int>& kinks)
        : spacing_m_(spacing_m),
          penalty_(build_penalty(count, kinks)),
          identity_(count, count) {
        identity_.setIdentity();
    }

    /// A wave of length L keeps 1 / (1 + (cutoff / L)^4) of its height.
    Columns apply(const Columns& columns, double cutoff_m) const {
        const double lambda = std::pow(cutoff_m / (kTwoPi * spacing_m_), 4);
        const Eigen::SparseMatrix<double> system = identity_ + lambda * penalty_;
        const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower,
                                    Eigen::NaturalOrdering<int>>
            factors(system);
        Columns smooth = columns;
        for (std::vector<double>& column : smooth) {
            Eigen::Map<Eigen::VectorXd> values(column.data(),
                                               static_cast<Eigen::Index>(column.size()));
            const double middle = values.mean();
            const Eigen::VectorXd centred = values.array() - middle;
            values = factors.solve(centred).array() + middle;
        }
        return smooth;
    }

  private:
    double spacing_m_;
    Eigen::SparseMatrix<double> penalty_;
    Eigen::SparseMatrix<double> identity_;
};

double measure_residual(const Columns& raw, const Columns& smooth) {
    double sum = 0.0;
    double count = 0.0;
    for (std::size_t k = 0; k < raw.size(); ++k) {
        for (std::size_t j = 0; j < raw[k].size(); ++j) {
            const double difference = raw[k][j] - smooth[k][j];
            sum += difference * difference;
        }
        count += static_cast<double>(raw[k].size());
    }
    return std::sqrt(sum / count);
}

/// The longest cutoff in the range whose residual does not exceed the noise.
double choose_cutoff(const Smoother& smoother, const Columns& columns, CutoffRange range,
                     double noise_m) {
    const double allowed_m = kDiscrepancyFactor * noise_m;
    auto is_allowed = [&](double cutoff_m) {
        return measure_residual(columns, smoother.apply(columns, cutoff_m)) <= allowed_m;
    };
    if (is_allowed(range.longest_m)) {
        return range.longest_m;
    }
    double low = std::log(range.shortest_m);
    double high = std::log(range.longest_m);
    for (int step = 0; step < kBisections; ++step) {
        const double middle = 0.5 * (low + high);
        (is_allowed(std::exp(middle)) ? low : high) = middle;
    }
    return std::exp(low);
}

double find_median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

double find_median_step(const Path& path) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < path.size(); ++i) {
        steps.push_back(path.distance_m[i] - path.distance_m[i - 1]);
    }
    return find_median(std::move(steps));
}

std::vector<int> place_kinks(const Path& path, const std::vector<std::size_t>& turns,
                             double spacing_m) {
    std::vector<int> kinks;
    for (const std::size_t point : turns) {
        kinks.push_back(
            static_cast<int>(std::lround(path.distance_m[point] / spacing_m)));
    }
    return kinks;
}

/// One pass: cells of the path, smoothed in plan and height.
SmoothPath smooth_once(const Path& path, const std::vector<std::size_t>& turns,
                       PathErrors errors, double spacing_m) {
    SmoothPath result;
    result.path = average_cells(path, spacing_m);
    Path& cells = result.path;
    const double fitted_m = cells.distance_m[1];
    const double step_m = find_median_step(path);
    const double lag_m = std::max(kNoiseLag_m, step_m);
    const int stride = std::max(1, static_cast<int>(std::ceil(lag_m / fitted_m)));
    const Columns plan = {cells.east_m, cells.north_m};
    const Columns height = {cells.elevation_m};
    result.plan_noise_m = estimate_noise(plan, stride, NoiseMeasure::kMedian);
    result.height_noise_m = estimate_noise(height, stride, NoiseMeasure::kMeanSquare);
    const Smoother smoother(static_cast<int>(cells.size()), fitted_m,
                            place_kinks(path, turns, fitted_m));
    result.plan_cutoff_m = choose_cutoff(
        smoother, plan, kPlanCutoff, std::min(errors.position_m, result.plan_noise_m));
    result.height_cutoff_m =
        choose_cutoff(smoother, height, kHeightCutoff,
                      std::min(errors.height_m, result.height_noise_m));
    Columns smooth_plan = smoother.apply(plan, result.plan_cutoff_m);
    cells.east_m = std::move(smooth_plan[0]);
    cells.north_m = std::move(smooth_plan[1]);
    cells.elevation_m = std::move(smoother.apply(height, result.height_cutoff_m)[0]);
    return result;
}

/// The distance of each point of `path` along the smoothed line of its cells.
std::vector<double> measure_along(const Path& path, const Path& smooth) {
    const double spacing_m = path.length_m() / static_cast<double>(smooth.size() - 1);
    std::vector<double> along(path.size());
    for (std::size_t i = 0; i < path.size(); ++i) {
        const double place = path.distance_m[i] / spacing_m;
        const std::size_t cell =
            std::min(static_cast<std::size_t>(std::max(place, 0.0)), smooth.size() - 2);
        const double part = std::min(place - static_cast<double>(cell), 1.0);
        along[i] = smooth.distance_m[cell] +
                   part * (smooth.distance_m[cell + 1] - smooth.distance_m[cell]);
    }
    return along;
}

}  // namespace

Columns smooth_columns(const Columns& columns, double spacing_m, double cutoff_m) {
    FLATTAIL_EXPECTS(!columns.empty() && columns.front().size() >= 3 && spacing_m > 0.0);
    return Smoother(static_cast<int>(columns.front().size()), spacing_m, {})
        .apply(columns, cutoff_m);
}

double estimate_noise(const Columns& columns, int stride, NoiseMeasure measure) {
    const std::size_t m = static_cast<std::size_t>(stride);
    std::vector<double> differences;
    for (const std::vector<double>& y : columns) {
        for (std::size_t j = 0; j + 4 * m < y.size(); ++j) {
            differences.push_back(std::abs(y[j] - 4.0 * y[j + m] + 6.0 * y[j + 2 * m] -
                                           4.0 * y[j + 3 * m] + y[j + 4 * m]));
        }
    }
    if (differences.size() < kFewestDifferences) {
        return std::numeric_limits<double>::infinity();
    }
    if (measure == NoiseMeasure::kMedian) {
        return find_median(std::move(differences)) /
               (kNormalMedian * kFourthDifferenceNorm);
    }
    double sum = 0.0;
    for (const double difference : differences) {
        sum += difference * difference;
    }
    return std::sqrt(sum / static_cast<double>(differences.size())) /
           kFourthDifferenceNorm;
}

SmoothPath smooth_path(const Path& path, PathErrors errors) {
    FLATTAIL_EXPECTS(path.size() >= 2 && path.length_m() > 0.0);
    const std::vector<std::size_t> turns = find_turning_points(path);
    Path measured = path;
    SmoothPath smooth;
    for (int pass = 0; pass < kPasses; ++pass) {
        const double spacing_m = std::max(
            kCellSpacing_m, measured.length_m() / static_cast<double>(kMaxCells));
        smooth = smooth_once(measured, turns, errors, spacing_m);
        remeasure(smooth.path);
        measured.distance_m = measure_along(measured, smooth.path);
    }
    return smooth;
}

}  // namespace flattail::course

#include "sampling/sampler.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/expects.h"
#include "sampling/score_cells.h"

namespace flattail::sampling {

using namespace chance;  // quantiles and shares
namespace {

// The generator's own smallest and largest uniform; a score beyond 8.2 is as good as
// these.
constexpr double kSmallestUniform = 0x1p-53;
constexpr double kLargestUniform = 1.0 - 0x1p-53;

bool needs_table(Shape shape) {
    return shape == Shape::kGamma || shape == Shape::kBeta || shape == Shape::kVonMises;
}

bool is_logarithmic(Shape shape) {
    return shape == Shape::kLognormal || shape == Shape::kSplitLognormal;
}

bool is_split(Shape shape) {
    return shape == Shape::kSplitNormal || shape == Shape::kSplitLognormal;
}

}  // namespace

Sampler::Sampler(Distribution distribution, const VectorMath& math)
    : distribution_(std::move(distribution)),
      math_(&math),
      is_bounded_(is_bounded(distribution_)),
      kept_(find_kept_share(distribution_)) {
    FLATTAIL_EXPECTS(find_fault(distribution_) == DistributionFault::kNone);
    if (needs_table(distribution_.shape)) {
        coefficients_ = tabulate_quantiles(distribution_, kLastTabledScore, kScoreCells);
    }
}

void Sampler::fill(const Stream& stream, std::uint64_t first_day, double* out) const {
    double u[kLanes];
    math_->fill_uniform(stream, first_day, u);
    fill_from_uniforms(u, out);
}

void Sampler::fill_at(const Stream& stream, const std::uint64_t* day, double* out) const {
    double u[kLanes];
    math_->fill_uniform_at(stream, day, u);
    fill_from_uniforms(u, out);
}

// Bounds narrow the uniform; a table has them built in.
void Sampler::fill_from_uniforms(const double* u, double* out) const {
    double within[kLanes];
    std::copy_n(u, kLanes, within);
    const bool narrows = is_bounded_ && !is_tabled();
    if (narrows) math_->affine(within, kept_.cut_below, kept_.kept, within);
    if (reads_scores()) {
        math_->normal_quantile(within, within);
        map_scores(within, out);
    } else {
        map_uniforms(within, out);
    }
    if (is_bounded_) math_->clamp(out, distribution_.lower, distribution_.upper, out);
}

void Sampler::fill_from_scores(const double* z, double* out) const {
    const bool is_direct = reads_scores() && (!is_bounded_ || is_tabled());
    if (!is_direct) {
        double u[kLanes];
        math_->normal_cdf(z, u);
        math_->clamp(u, kSmallestUniform, kLargestUniform, u);
        fill_from_uniforms(u, out);
        return;
    }
    map_scores(z, out);
    if (is_bounded_) math_->clamp(out, distribution_.lower, distribution_.upper, out);
}

double Sampler::value_of(double u) const {
    FLATTAIL_EXPECTS(u > 0.0 && u < 1.0);
    double block[kLanes];
    std::fill_n(block, kLanes, u);
    fill_from_uniforms(block, block);
    return block[0];
}

bool Sampler::reads_scores() const {
    const Shape shape = distribution_.shape;
    return shape == Shape::kNormal || shape == Shape::kWrappedNormal ||
           is_logarithmic(shape) || is_split(shape) || is_tabled();
}

void Sampler::map_scores(const double* z, double* out) const {
    const Distribution& d = distribution_;
    if (is_tabled()) {
        read_cells(z, out);
    } else if (is_direction(d.shape)) {
        math_->affine(z, 0.0, d.b, out);
    } else {
        math_->split_scale(z, {d.a, d.b, is_split(d.shape) ? d.c : d.b}, out);
    }
    if (is_logarithmic(d.shape)) math_->exp(out, out);
    if (is_direction(d.shape)) {
        math_->affine(out, d.a, 1.0, out);
        math_->wrap_angle(out, out);
    }
}

void Sampler::read_cells(const double* z, double* out) const {
    CubicCells cells;
    cells.first_score = -kLastTabledScore;
    cells.cells_per_score = kScoreCells / (2.0 * kLastTabledScore);
    cells.cells = kScoreCells;
    cells.coefficients = coefficients_.data();
    double score[kLanes];
    std::copy_n(z, kLanes, score);
    math_->cubic_cells(score, cells, out);
    for (int lane = 0; lane < kLanes; ++lane) {
        if (std::abs(score[lane]) <= kLastTabledScore) continue;
        out[lane] = find_value_at_score(distribution_, kept_, score[lane]);
    }
}

void Sampler::map_uniforms(const double* u, double* out) const {
    const Distribution& d = distribution_;
    switch (d.shape) {
        case Shape::kUniform:
            math_->affine(u, d.a, d.b - d.a, out);
            return;
        case Shape::kWeibull:
            math_->weibull(u, {d.a, d.b}, out);
            return;
        case Shape::kTriangular:
            math_->triangular(u, {d.a, d.b, d.c}, out);
            return;
        default:
            for (int lane = 0; lane < kLanes; ++lane) {
                out[lane] = find_quantile(d, {u[lane], 1.0 - u[lane]});
            }
    }
}

}  // namespace flattail::sampling

// The hot loops of sampling over one block of lanes, one table of entry points for each
// instruction set. The loops stand in sampling/vector/ and are compiled once for each
// set.
#pragma once

#include <cstdint>

#include "base/instruction_set.h"
#include "sampling/address.h"

namespace flattail::sampling {

/// Two half-normal scales that meet at the centre: centre + (z < 0 ? below : above) z.
struct SplitScale {
    double centre = 0.0;
    double below = 0.0;
    double above = 0.0;
};

struct WeibullScale {
    double shape = 1.0;
    double scale = 1.0;
};

struct TriangleEnds {
    double low = 0.0;
    double mode = 0.5;
    double high = 1.0;
};

/// A function of the normal score as cubics over cells of equal width.
struct CubicCells {
    double first_score = 0.0;
    double cells_per_score = 1.0;
    int cells = 0;
    /// coefficients[4 cell + k] belongs to the k-th power of the place within the cell.
    const double* coefficients = nullptr;
};

/// A constant and a weighted sum of rows of lanes.
struct ModeSum {
    double centre = 0.0;
    int modes = 0;
    const double* weight = nullptr;  // [mode]
    const double* score = nullptr;   // [mode * kLanes + lane]
};

/// Every loop reads and writes kLanes doubles; `out` may be the input array itself, but
/// must not overlap it otherwise.
/// Accuracy: same bits in every table; bounds as stated in
/// base/lane_math.h, lane_normal.h
struct VectorMath {
    /// Uniforms of the days first_day, first_day + 1, ...
    void (*fill_uniform)(const Stream& stream, std::uint64_t first_day, double* out);
    /// Uniforms of the days day[0], day[1], ... in any order.
    void (*fill_uniform_at)(const Stream& stream, const std::uint64_t* day, double* out);
    /// Normal scores of the days first_day, first_day + 1, ...
    void (*fill_normal)(const Stream& stream, std::uint64_t first_day, double* out);
    void (*log)(const double* x, double* out);
    void (*exp)(const double* x, double* out);
    void (*power)(const double* x, double exponent, double* out);
    void (*normal_quantile)(const double* p, double* out);
    void (*normal_cdf)(const double* z, double* out);
    void (*sin_cos_turns)(const double* turns, double* sine, double* cosine);
    void (*wrap_angle)(const double* angle_rad, double* out);
    /// offset + slope x
    void (*affine)(const double* x, double offset, double slope, double* out);
    /// x brought into [low, high]
    void (*clamp)(const double* x, double low, double high, double* out);
    void (*split_scale)(const double* z, const SplitScale& scale, double* out);
    /// Weibull and triangular values of uniforms, by their closed quantile functions.
    void (*weibull)(const double* u, const WeibullScale& scale, double* out);
    void (*triangular)(const double* u, const TriangleEnds& ends, double* out);
    /// Values of scores; scores beyond the cells take the value at their end.
    void (*cubic_cells)(const double* z, const CubicCells& table, double* out);
    /// centre + sum of weight[k] score[k][lane]; `out` apart from the scores.
    void (*combine_modes)(const ModeSum& sum, double* out);
};

/// The loops of one instruction set. The set must be among supported_instruction_sets().
const VectorMath& vector_math(base::InstructionSet set);

}  // namespace flattail::sampling

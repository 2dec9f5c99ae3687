// Compiled once for each instruction set; FLATTAIL_ISA names the namespace of the result.
// Only headers whose functions have internal linkage may be included here.
#include "base/lane_normal.h"
#include "sampling/philox.h"
#include "sampling/vector_math.h"

namespace flattail::sampling::FLATTAIL_ISA {
const VectorMath& list_loops();
namespace {

namespace lane = base::lane;

// An even first day: each generator call serves both days of a pair.
void fill_pairs(const Stream& stream, std::uint64_t first_pair, double* __restrict out) {
    constexpr int kPairs = kLanes / 2;
    double even[kPairs];
    double odd[kPairs];
    for (int i = 0; i < kPairs; ++i) {
        const PhiloxWords words =
            draw_words(stream, first_pair + static_cast<std::uint64_t>(i));
        even[i] = to_uniform(words.w0, words.w1);
        odd[i] = to_uniform(words.w2, words.w3);
    }
    for (int i = 0; i < kPairs; ++i) {
        out[2 * i] = even[i];
        out[2 * i + 1] = odd[i];
    }
}

void fill_uniform(const Stream& stream, std::uint64_t first_day, double* __restrict out) {
    if ((first_day & 1u) == 0) {
        fill_pairs(stream, first_day >> 1, out);
        return;
    }
    for (int i = 0; i < kLanes; ++i) {
        out[i] = draw_uniform_of_day(stream, first_day + static_cast<std::uint64_t>(i));
    }
}

void fill_uniform_at(const Stream& stream, const std::uint64_t* __restrict day,
                     double* __restrict out) {
    for (int i = 0; i < kLanes; ++i) out[i] = draw_uniform_of_day(stream, day[i]);
}

// `out` may be `x` itself: each lane is read before it is written, and no lane reads
// another, which is what the ivdep marks tell the compiler.
#if defined(__clang__)
#define FLATTAIL_LANES _Pragma("clang loop vectorize(assume_safety)")
#else
#define FLATTAIL_LANES _Pragma("GCC ivdep")
#endif

void log(const double* x, double* out) {
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) out[i] = lane::log(x[i]);
}

void exp(const double* x, double* out) {
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) out[i] = lane::exp(x[i]);
}

void power(const double* x, double exponent, double* out) {
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) out[i] = lane::power(x[i], exponent);
}

// Two short loops overlap better in the processor than one long one. The far tail, one
// lane in thirty thousand million, is left to a second pass when a root asks for it.
void normal_quantile(const double* p, double* out) {
    double share[kLanes];
    double root_log[kLanes];
    for (int i = 0; i < kLanes; ++i) {
        share[i] = p[i];
        root_log[i] = lane::find_root_log(p[i]);
    }
    std::uint64_t is_far = 0;
    for (int i = 0; i < kLanes; ++i) {
        out[i] = lane::normal_quantile_near(share[i], root_log[i]);
        is_far |= lane::bits_of(lane::kFarRootLog - root_log[i]) >> 63;
    }
    if (is_far == 0) return;
    for (int i = 0; i < kLanes; ++i) out[i] = lane::normal_quantile(share[i]);
}

void fill_normal(const Stream& stream, std::uint64_t first_day, double* out) {
    double u[kLanes];
    fill_uniform(stream, first_day, u);
    normal_quantile(u, out);
}

void normal_cdf(const double* z, double* out) {
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) out[i] = lane::normal_cdf(z[i]);
}

void sin_cos_turns(const double* turns, double* sine, double* cosine) {
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) {
        const lane::SinCos both = lane::sin_cos_turns(turns[i]);
        sine[i] = both.sin;
        cosine[i] = both.cos;
    }
}

void wrap_angle(const double* angle_rad, double* out) {
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) out[i] = lane::wrap_angle(angle_rad[i]);
}

void affine(const double* x, double offset, double slope, double* out) {
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) out[i] = offset + slope * x[i];
}

void clamp(const double* x, double low, double high, double* out) {
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) {
        out[i] = lane::smaller_of(lane::larger_of(x[i], low), high);
    }
}

void split_scale(const double* z, const SplitScale& scale, double* out) {
    const SplitScale s = scale;
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) {
        out[i] = s.centre + (z[i] < 0.0 ? s.below : s.above) * z[i];
    }
}

void weibull(const double* u, const WeibullScale& scale, double* out) {
    const double exponent = 1.0 / scale.shape;
    const double factor = scale.scale;
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i)
        out[i] = lane::weibull_quantile(u[i], exponent, factor);
}

void triangular(const double* u, const TriangleEnds& ends, double* out) {
    const TriangleEnds e = ends;
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) {
        out[i] = lane::triangular_quantile(u[i], e.low, e.mode, e.high);
    }
}

// Two loops: the first finds each lane's cell and the place in it, the second fetches the
// coefficients, which has to be a gather.
void cubic_cells(const double* z, const CubicCells& table, double* out) {
    const double first = table.first_score;
    const double per_score = table.cells_per_score;
    const double last_place = static_cast<double>(table.cells);
    const int last_cell = table.cells - 1;
    int start[kLanes];
    double x[kLanes];
    for (int i = 0; i < kLanes; ++i) {
        const double place = lane::smaller_of(
            lane::larger_of((z[i] - first) * per_score, 0.0), last_place);
        const int whole = static_cast<int>(place);
        const int cell = whole < last_cell ? whole : last_cell;
        start[i] = 4 * cell;
        x[i] = place - static_cast<double>(cell);
    }
    const double* __restrict c = table.coefficients;
    FLATTAIL_LANES
    for (int i = 0; i < kLanes; ++i) {
        const int at = start[i];
        out[i] = c[at] + x[i] * (c[at + 1] + x[i] * (c[at + 2] + x[i] * c[at + 3]));
    }
}

void combine_modes(const ModeSum& sum, double* __restrict out) {
    for (int i = 0; i < kLanes; ++i) out[i] = sum.centre;
    for (int k = 0; k < sum.modes; ++k) {
        const double weight = sum.weight[k];
        const double* score = sum.score + k * kLanes;
        for (int i = 0; i < kLanes; ++i) out[i] += weight * score[i];
    }
}

constexpr VectorMath kLoops{
    fill_uniform,    fill_uniform_at, fill_normal,   log,         exp,          power,
    normal_quantile, normal_cdf,      sin_cos_turns, wrap_angle,  affine,       clamp,
    split_scale,     weibull,         triangular,    cubic_cells, combine_modes};

}  // namespace

const VectorMath& list_loops() { return kLoops; }

}  // namespace flattail::sampling::FLATTAIL_ISA

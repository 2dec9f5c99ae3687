#include "scenario/values/move_distribution.h"

#include <cmath>

#include "base/expects.h"

namespace flattail::scenario {

namespace {

// How the parameters of a shape follow when values move.
enum class Family { kLocation, kLogarithmic, kScaleOnly, kFixed };

Family find_family(Shape shape) {
    switch (shape) {
        case Shape::kLognormal:
        case Shape::kSplitLognormal:
            return Family::kLogarithmic;
        case Shape::kGamma:
        case Shape::kWeibull:
            return Family::kScaleOnly;
        case Shape::kBeta:
        case Shape::kBernoulli:
        case Shape::kVonMises:
            return Family::kFixed;
        default:
            return Family::kLocation;
    }
}

// True where b and c are places on the axis, false where they are widths.
bool has_places(Shape shape) {
    return shape == Shape::kUniform || shape == Shape::kTriangular;
}

}  // namespace

Distribution shift_distribution(Distribution d, double step) {
    if (step == 0.0) return d;
    FLATTAIL_EXPECTS(find_family(d.shape) == Family::kLocation);
    d.a += step;
    if (has_places(d.shape)) {
        d.b += step;
        d.c += step;
    }
    for (double& value : d.table) value += step;
    d.lower += step;
    d.upper += step;
    return d;
}

Distribution scale_distribution(Distribution d, double factor) {
    FLATTAIL_EXPECTS(factor > 0.0);
    if (factor == 1.0) return d;
    const Family family = find_family(d.shape);
    FLATTAIL_EXPECTS(family != Family::kFixed);
    if (family == Family::kLogarithmic) {
        d.a += std::log(factor);
    } else if (family == Family::kScaleOnly) {
        d.b *= factor;
    } else {
        d.a *= factor;
        d.b *= factor;
        d.c *= factor;
    }
    for (double& value : d.table) value *= factor;
    d.lower *= factor;
    d.upper *= factor;
    return d;
}

Input scale_input(Input input, double factor) {
    input.knowledge = scale_distribution(input.knowledge, factor);
    if (input.deviation == Deviation::kAdd) {
        input.luck = scale_distribution(input.luck, factor);
    }
    input.unit_si *= factor;
    input.unit_zero *= factor;
    return input;
}

}  // namespace flattail::scenario

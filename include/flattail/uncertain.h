// Values that are not exactly known: what luck changes each day, and what we do not know.
#pragma once

#include <limits>
#include <string>
#include <vector>

#include "flattail/problem.h"

namespace flattail {

/// Families of distributions; the meaning of `a`, `b`, `c` stands beside each.
enum class Shape {
    kPoint,           // a = the value
    kNormal,          // a = mean, b = sd
    kLognormal,       // a = ln median, b = sd of the logarithm
    kSplitNormal,     // a = median, b = sd below it, c = sd above it
    kSplitLognormal,  // a = ln median, b, c = sd of the logarithm below and above
    kUniform,         // a = low, b = high
    kBeta,            // a, b = the two exponents (alpha, beta), on (0, 1)
    kGamma,           // a = shape, b = scale
    kWeibull,         // a = shape, b = scale
    kTriangular,      // a = low, b = mode, c = high
    kWrappedNormal,   // a = mean direction, b = sd (rad); values in [0, 2 pi)
    kVonMises,        // a = mean direction (rad), b = concentration; values in [0, 2 pi)
    kTable,           // table = quantiles at 0, 1/(n-1), ..., 1, joined by straight lines
    kSamples,         // table = equally likely values in the order of a file's rows; a
                      // draw u takes the row floor(n u)
    kBernoulli        // a = chance of a 1, else 0
};

/// One distribution, as data. Bounds cut it: what lies outside is dropped and the rest
/// scaled up, u' = F(lower) + u (F(upper) - F(lower)).
struct Distribution {
    Shape shape = Shape::kPoint;
    double a = 0.0;
    double b = 0.0;
    double c = 0.0;
    double lower = -std::numeric_limits<double>::infinity();
    double upper = std::numeric_limits<double>::infinity();
    std::vector<double> table;
};

/// Where a value comes from; printed beside every default.
enum class Origin { kStated, kPublished, kCommonPractice, kAssumption, kFitted };

/// Luck: differs each day. Knowledge: one true value that we do not know.
enum class Layer { kKnowledge, kLuck };

/// How the day's luck moves a value about its centre.
enum class Deviation { kNone, kAdd, kMultiply };

/// One uncertain input. The centre is one true value that we do not know (`knowledge`; a
/// point when it is known); each day's luck then adds to it or multiplies it. `name` is
/// the address of its random numbers: it never changes once released.
struct Input {
    std::string name;  // "rider.power"
    // Address of its random numbers where it shares them: values of one file are drawn
    // row by row. Empty: its own name.
    std::string draw_name;
    std::string label;   // "power", for tables
    std::string unit;    // "W": the unit people read; values are SI
    double unit_si = 1;  // SI value = number * unit_si + unit_zero
    double unit_zero = 0;
    Distribution knowledge;
    Distribution luck;
    Deviation deviation = Deviation::kNone;
    Origin origin = Origin::kStated;
    std::string source;  // words for the origin
    Place place;         // where it was stated; empty for a default
};

/// Typed index into a scenario's table of inputs.
struct InputId {
    int index = -1;
    bool is_set() const { return index >= 0; }
};

}  // namespace flattail

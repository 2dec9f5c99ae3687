#include "findings/sample/error_shape.h"

#include <cmath>
#include <cstddef>
#include <limits>

namespace flattail::findings {

void ErrorShape::add(const ErrorShape& other) {
    for (std::size_t h = 0; h < parts_.size(); ++h) {
        parts_[h].count += other.parts_[h].count;
        parts_[h].sum += other.parts_[h].sum;
        parts_[h].squares += other.parts_[h].squares;
        parts_[h].cubes += other.parts_[h].cubes;
        parts_[h].fourths += other.parts_[h].fourths;
    }
}

double ErrorShape::variance() const {
    double variance = 0;
    for (const Part& part : parts_) {
        if (part.count < 2) continue;
        const double within = part.squares - part.sum * part.sum / part.count;
        variance += std::fmax(within, 0) * part.count / (part.count - 1);
    }
    return variance;
}

double ErrorShape::third() const {
    double third = 0;
    for (const Part& part : parts_) {
        if (part.count == 0) continue;
        const double mean = part.sum / part.count;
        third += part.cubes - 3 * mean * part.squares + 2 * mean * mean * part.sum;
    }
    return third;
}

double ErrorShape::fourth() const {
    double fourth = 0;
    for (const Part& part : parts_) {
        if (part.count == 0) continue;
        const double mean = part.sum / part.count;
        fourth += part.fourths - 4 * mean * part.cubes + 6 * mean * mean * part.squares -
                  3 * mean * mean * mean * part.sum;
    }
    return fourth;
}

double ErrorShape::skewness() const {
    const double v = variance();
    return v > 0 ? third() / (v * std::sqrt(v)) : 0;
}

double ErrorShape::freedom() const {
    const double v = variance(), lean = skewness();
    const double own = v > 0 ? fourth() / (v * v) - lean * lean : 0;
    return own > 0 ? 2 / own : std::numeric_limits<double>::infinity();
}

}  // namespace flattail::findings

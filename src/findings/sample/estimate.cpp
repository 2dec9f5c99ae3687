#include "findings/sample/estimate.h"

#include <boost/math/distributions/normal.hpp>

namespace flattail::findings {

double normal_factor(double confidence) {
    FLATTAIL_EXPECTS(confidence > 0 && confidence < 1);
    return boost::math::quantile(boost::math::normal(), 0.5 + 0.5 * confidence);
}

Interval interval_of(const Estimate& estimate, double confidence) {
    const double half_width = normal_factor(confidence) * estimate.standard_error;
    return {estimate.value - half_width, estimate.value + half_width};
}

double total_weight(const Design& design) {
    double sum = 0;
    for (const double weight : design.weight) sum += weight;
    return sum;
}

double effective_size(const Design& design) {
    double sum = 0, squares = 0;
    for (const double weight : design.weight) {
        sum += weight;
        squares += weight * weight;
    }
    return sum * sum / squares;
}

void StratifiedVariance::add_sums(std::uint8_t stratum, double count, double sum,
                                  double squares) {
    Part& part = parts_[stratum];
    part.count += count;
    part.sum += sum;
    part.squares += squares;
}

double StratifiedVariance::variance() const {
    double variance = 0;
    for (const Part& part : parts_) {
        if (part.count == 0) continue;
        if (part.count == 1) {
            variance += part.squares;
            continue;
        }
        const double within = part.squares - part.sum * part.sum / part.count;
        variance += std::fmax(within, 0) * part.count / (part.count - 1);
    }
    return variance;
}

}  // namespace flattail::findings

#include "findings/scores.h"

#include <boost/math/constants/constants.hpp>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <limits>

namespace flattail::findings {

double score_crps_normal(double mean, double sd, double observed) {
    FLATTAIL_EXPECTS(sd > 0);
    const boost::math::normal standard;
    const double z = (observed - mean) / sd;
    return sd * (z * (2 * cdf(standard, z) - 1) + 2 * pdf(standard, z) -
                 boost::math::constants::one_div_root_pi<double>());
}

double score_crps_ensemble(std::span<const double> members, double observed,
                           EnsembleScore kind) {
    const double count = static_cast<double>(members.size());
    FLATTAIL_EXPECTS(count >= (kind == EnsembleScore::kFair ? 2 : 1));
    double miss = 0, spread = 0;
    for (const double member : members) {
        miss += std::fabs(member - observed);
        for (const double other : members) spread += std::fabs(member - other);
    }
    const double pairs =
        kind == EnsembleScore::kFair ? count * (count - 1) : count * count;
    return miss / count - spread / (2 * pairs);
}

double score_crps(const WeightedSample& forecast, double observed) {
    const std::size_t last = forecast.size() - 1;
    // Outside the sample one step is at 0 or 1 and the other is not, all the way to the
    // observation.
    double score = std::fmax(forecast.value_at(0) - observed, 0) +
                   std::fmax(observed - forecast.value_at(last), 0);
    double weight = 0;
    for (std::size_t rank = 0; rank < last; ++rank) {
        weight += forecast.design().weight[forecast.order()[rank]];
        const double share = weight / forecast.total_weight();
        const double low = forecast.value_at(rank), high = forecast.value_at(rank + 1);
        const double middle = std::fmin(std::fmax(observed, low), high);
        score +=
            share * share * (middle - low) + (1 - share) * (1 - share) * (high - middle);
    }
    return score;
}

double probability_transform(const WeightedSample& forecast, double observed) {
    const auto below =
        forecast.share_between(-std::numeric_limits<double>::infinity(), observed);
    return 0.5 * (below.value + forecast.cdf(observed).value);
}

double probability_transform_normal(double mean, double sd, double observed) {
    FLATTAIL_EXPECTS(sd > 0);
    return cdf(boost::math::normal(mean, sd), observed);
}

BrierScore score_brier(std::span<const ForecastBin> bins) {
    double cases = 0, hits = 0;
    for (const ForecastBin& bin : bins) {
        cases += bin.cases;
        hits += bin.hits;
    }
    FLATTAIL_EXPECTS(cases > 0);
    const double base_rate = hits / cases;
    BrierScore brier;
    brier.uncertainty = base_rate * (1 - base_rate);
    for (const ForecastBin& bin : bins) {
        if (bin.cases == 0) continue;
        const double share = bin.cases / cases, rate = bin.hits / bin.cases;
        brier.score += share * (rate * (1 - bin.chance) * (1 - bin.chance) +
                                (1 - rate) * bin.chance * bin.chance);
        brier.reliability += share * (bin.chance - rate) * (bin.chance - rate);
        brier.resolution += share * (rate - base_rate) * (rate - base_rate);
    }
    return brier;
}

}  // namespace flattail::findings

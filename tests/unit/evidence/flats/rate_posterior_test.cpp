// Posteriors of rates against conjugate closed forms.
#include "evidence/flats/rate_posterior.h"

#include <boost/math/distributions/gamma.hpp>
#include <boost/math/distributions/negative_binomial.hpp>
#include <cmath>
#include <limits>

#include "evidence/flats/race_factor.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::evidence;

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

bool near(double value, double expected, double relative) {
    return std::fabs(value - expected) <= relative * std::fabs(expected);
}

// A fine grid of rates around those of a log, with weights rate^(power) L(rate).
struct Weighed {
    LogGrid grid{1e-9, .01, 1500};
    std::vector<double> weights;
};

Weighed weigh(const std::vector<DayCount>& days, double clump_shape, double power,
              double prior_m) {
    Weighed w;
    const auto logs = compute_log_likelihood(days, clump_shape, w.grid);
    for (int k = 0; k < w.grid.size; ++k) {
        const double rate = w.grid.at(k);
        w.weights.push_back(std::exp(logs[static_cast<std::size_t>(k)] - rate * prior_m +
                                     power * std::log(rate * 1e6)));
    }
    normalise(w.weights);
    return w;
}

RaceFactor make_certain_factor() {
    RaceFactor factor;
    factor.grid = {1.0, .1, 1};
    factor.weights = {1.0};
    return factor;
}

}  // namespace

TEST_CASE("an unclumped log under Jeffreys' prior has the known posterior") {
    // Gamma(1/2, 0) and 3 flats in 4000 km: mean, sd, median and 95 % limits of the
    // gamma distribution with shape 3.5 (Jeffreys 1946). The density of ln rate is
    // rate^(1/2) L, since the prior is rate^(-1/2).
    const Weighed w = weigh({{4e6, 3}}, kNever, .5, 0.0);
    const Belief belief = summarise_weights(w.grid, w.weights);
    CHECK(near(belief.mean, 8.75e-7, 1e-6));
    CHECK(near(belief.sd, 4.677071733e-7, 1e-6));
    CHECK(near(belief.mid, 7.932263994e-7, 1e-4));
    CHECK(near(find_quantile(w.grid, w.weights, .025), .211233648e-6, 2e-4));
    CHECK(near(find_quantile(w.grid, w.weights, .975), 2.001595534e-6, 2e-4));
}

TEST_CASE("the predictive chances average over the rate") {
    // Same posterior, 90 km: negative binomial (3.5, 4000 / 4090).
    const Weighed w = weigh({{4e6, 3}}, kNever, .5, 0.0);
    const RaceChances race =
        predict_race(make_certain_factor(), w.grid, w.weights, kNever, 90e3);
    CHECK(near(race.none, .925078082728, 1e-6));
    CHECK(near(race.one, .071246845002, 1e-6));
    // The chance at the mean rate, a wrong answer that people give.
    CHECK_FALSE(near(race.none, .924270963305, 1e-6));
    // Gamma(2, 3000 km) before 1 flat in 2500 km: (5500 / 5590)^3.
    const Weighed other = weigh({{2.5e6, 1}}, kNever, 2.0, 3e6);
    CHECK(near(
        predict_race(make_certain_factor(), other.grid, other.weights, kNever, 90e3).none,
        .952472937188, 1e-6));
}

TEST_CASE("a clumped day counts as the negative binomial says") {
    // Boost.Math: number of failures before `shape` successes.
    const double shape = 3.4, rate = 4e-7, even_m = 3e6;
    const LogGrid grid{rate, .7, 2};
    const double success = shape / (shape + rate * even_m);
    const double other_success = shape / (shape + grid.at(1) * even_m);
    for (const int flats : {0, 1, 4}) {
        const auto logs = compute_log_likelihood({{even_m, flats}}, shape, grid);
        const boost::math::negative_binomial_distribution<> one(shape, success);
        const boost::math::negative_binomial_distribution<> two(shape, other_success);
        CHECK(near(logs[1] - logs[0], std::log(pdf(two, flats) / pdf(one, flats)), 1e-9));
    }
}

TEST_CASE("several rides in one row clump less than one long ride") {
    const auto spread = [](double rides) {
        const Weighed w = weigh({{9e6, 4, rides}}, 3.4, .5, 0.0);
        return summarise_weights(w.grid, w.weights).sd;
    };
    CHECK(spread(1) > 1.3 * spread(200));
    const Weighed unclumped = weigh({{9e6, 4}}, kNever, .5, 0.0);
    CHECK(near(spread(20000), summarise_weights(unclumped.grid, unclumped.weights).sd,
               .01));
}

TEST_CASE("without a flat or a kilometre the default rate comes back") {
    const RatePrior prior;
    const std::vector<double> silent(static_cast<std::size_t>(prior.rates().size));
    const RatePosterior rates(prior, {silent, silent});
    const Belief belief = summarise_weights(prior.rates(), rates.weights(0));
    // The default is the mean over inners; the median of one lies a little lower.
    CHECK(near(belief.mid * 1e6, .4, .06));
    CHECK(belief.low * 1e6 < 1.0 / 6);
    CHECK(belief.high * 1e6 > 1.0);
    // Two inners of one rider are alike before flats tell: about as the default of .6
    // to 1.7.
    const Belief ratio = rates.compare(1, 0);
    CHECK(near(ratio.mid, 1.0, .01));
    CHECK(ratio.low > .4);
    CHECK(ratio.high < 2.5);
}

TEST_CASE("much riding leaves nothing but the count") {
    const RatePrior prior;
    const auto likelihood =
        compute_log_likelihood({{1e9, 800, 20000}}, 3.4, prior.rates());
    const RatePosterior rates(prior, {likelihood});
    const Belief belief = summarise_weights(prior.rates(), rates.weights(0));
    CHECK(near(belief.mean, 8e-7, .01));
    CHECK(near(belief.sd / belief.mean, 1.0 / std::sqrt(800.0), .1));
}

TEST_CASE("an inner without flats is drawn towards the others") {
    const RatePrior prior;
    const auto few = compute_log_likelihood({{1.5e6, 0}}, kNever, prior.rates());
    const auto many = compute_log_likelihood({{20e6, 30, 300}}, kNever, prior.rates());
    const auto alone = RatePosterior(prior, {few});
    const auto together = RatePosterior(prior, {few, many});
    const double by_itself = summarise_weights(prior.rates(), alone.weights(0)).mean;
    const double beside = summarise_weights(prior.rates(), together.weights(0)).mean;
    CHECK(beside > 1.3 * by_itself);
    CHECK(beside < 1.5e-6);
    CHECK(together.covariance(0, 1) > 0.0);
    CHECK(together.covariance(0, 0) > together.covariance(0, 1));
}

TEST_CASE("races move the race factor and leave training alone") {
    const RatePrior prior;
    const RatePosterior rates(
        prior, {compute_log_likelihood({{40e6, 16, 600}}, 3.4, prior.rates())});
    RaceFactor factor = start_race_factor();
    const Belief before = summarise_weights(factor.grid, factor.weights);
    CHECK(near(before.mid, .8, .01));
    CHECK(near(before.low, .4, .03));
    CHECK(near(before.high, 1.3, .03));
    learn_from_races(factor, {{5e6, 4, 60}}, 3.4, rates.rates(), rates.weights(0));
    const Belief after = summarise_weights(factor.grid, factor.weights);
    CHECK(after.mid > 1.1 * before.mid);
    RaceFactor untouched = start_race_factor();
    learn_from_races(untouched, {}, 3.4, rates.rates(), rates.weights(0));
    CHECK(untouched.weights == start_race_factor().weights);
}

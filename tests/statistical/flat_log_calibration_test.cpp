// Are the rates learned from a log right as often as they say? The truth is drawn from
// the prior, a log from the truth; then the share of the posterior below the truth is
// uniform (Cook, Gelman & Rubin 2006).
#include <array>
#include <cmath>
#include <random>
#include <vector>

#include "chance/distribution.h"
#include "chance/make_distribution.h"
#include "evidence/flats/exact_rates.h"
#include "evidence/flats/rate_posterior.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::evidence;

namespace {

constexpr int kLogs = 6000;
constexpr double kClumpShape = 3.4;

// One rider: two inners from one gamma distribution whose mean and width are drawn too.
class Riders {
  public:
    explicit Riders(std::uint64_t seed) : random_(seed) {}

    std::array<double, 2> draw_rates() {
        const double mean = chance::quantile(mean_, uniform());
        const double unlike =
            std::fabs(std::normal_distribution<double>(0, beliefs_.unlike)(random_));
        const double shape = 1 / (unlike * unlike);
        std::gamma_distribution<double> rate(shape, mean / shape);
        return {rate(random_), rate(random_)};
    }

    // Days of 400 km and more, so that many hold two flats and clumping matters.
    std::vector<DayCount> ride(double rate_per_m, int days) {
        std::gamma_distribution<double> luck(kClumpShape, 1 / kClumpShape);
        std::vector<DayCount> log;
        for (int day = 0; day < days; ++day) {
            const double even_m = 4e5 + 4e5 * uniform();
            std::poisson_distribution<int> flats(rate_per_m * even_m * luck(random_));
            log.push_back({even_m, flats(random_)});
        }
        return log;
    }

    double uniform() { return std::uniform_real_distribution<double>(0, 1)(random_); }

  private:
    RateBeliefs beliefs_;
    Distribution mean_ = chance::make_split_lognormal(
        {beliefs_.low_per_m, beliefs_.mid_per_m, beliefs_.high_per_m});
    std::mt19937_64 random_;
};

// What was found over all logs.
struct Calibration {
    std::array<int, 20> ranks{};
    int covered = 0;
    // Sum over twentieths of (count - expected)^2 / expected.
    double chi_square() const {
        const double expected = double(kLogs) / double(ranks.size());
        double sum = 0;
        for (const int count : ranks) sum += std::pow(count - expected, 2) / expected;
        return sum;
    }
};

// Ranks of the truth stretched away from the middle by `stretch`: 1 as it is, 1.25 as if
// every range were a fifth too narrow.
double find_rank(const LogGrid& grid, const std::vector<double>& weights, double truth,
                 double stretch) {
    const double middle = find_quantile(grid, weights, .5);
    return find_share(grid, weights, middle * std::pow(truth / middle, stretch));
}

Calibration calibrate(double clump_shape, double stretch, std::uint64_t seed) {
    const RatePrior prior;
    Riders riders(seed);
    Calibration found;
    for (int log = 0; log < kLogs; ++log) {
        const auto truth = riders.draw_rates();
        const RatePosterior rates(
            prior, {compute_log_likelihood(riders.ride(truth[0], 20), clump_shape,
                                           prior.rates()),
                    compute_log_likelihood(riders.ride(truth[1], 5), clump_shape,
                                           prior.rates())});
        // The lesser inner, where the prior and the other inner count most.
        const double rank = find_rank(prior.rates(), rates.weights(1), truth[1], stretch);
        const auto bin = static_cast<std::size_t>(rank * 20);
        ++found.ranks[std::min<std::size_t>(bin, 19)];
        if (rank > .025 && rank < .975) ++found.covered;
    }
    return found;
}

// Chi-square with 19 degrees of freedom exceeds this once in a million (tables; the 1e-6
// point is 65.4).
constexpr double kOnceInAMillion = 65.4;

bool covers_95(const Calibration& found) {
    return std::fabs(double(found.covered) / kLogs - .95) <= .015;
}

}  // namespace

TEST_CASE("ranges of flat rates learned from logs hold as often as they say") {
    const Calibration found = calibrate(kClumpShape, 1.0, 11);
    CAPTURE(found.chi_square(), found.covered);
    CHECK(found.chi_square() < kOnceInAMillion);
    CHECK(covers_95(found));
}

TEST_CASE("ranges a fifth too narrow fail the same checks") {
    const Calibration found = calibrate(kClumpShape, 1.25, 11);
    CAPTURE(found.chi_square(), found.covered);
    CHECK_FALSE(found.chi_square() < kOnceInAMillion);
    CHECK_FALSE(covers_95(found));
}

TEST_CASE("exact limits hold the true rate and the true ratio at least 19 times in 20") {
    // Never below 95 %; 4.9 standard errors of a share of .95 are .0138 at 6,000.
    const double slack = 4.9 * std::sqrt(.95 * .05 / kLogs);
    std::mt19937_64 random(12);
    for (const double mean : {.7, 2.0, 6.0, 20.0}) {
        int of_rate = 0, of_ratio = 0, of_narrow = 0;
        std::poisson_distribution<int> first(mean), second(3 * mean);
        for (int log = 0; log < kLogs; ++log) {
            const int a = first(random), b = second(random);
            const Interval limits = compute_poisson_limits(a);
            if (limits.low <= mean && mean <= limits.high) ++of_rate;
            const Interval ratio = compare_rates({a, 1e6}, {b, 1.5e6}).limits;
            if (ratio.low <= .5 && .5 <= ratio.high) ++of_ratio;
            // The twin: the same limits drawn in by a fifth, in the square root.
            const double middle = std::sqrt(a + .5);
            const auto draw_in = [&](double limit) {
                return std::pow(middle + .8 * (std::sqrt(limit) - middle), 2);
            };
            if (draw_in(limits.low) <= mean && mean <= draw_in(limits.high)) ++of_narrow;
        }
        CAPTURE(mean, of_rate, of_ratio, of_narrow);
        CHECK(of_rate >= (.95 - slack) * kLogs);
        CHECK(of_ratio >= (.95 - slack) * kLogs);
        if (mean > 10) CHECK_FALSE(of_narrow >= (.95 - slack) * kLogs);
    }
}

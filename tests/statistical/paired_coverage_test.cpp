// Do intervals of differences between two setups on the same days hold the exact answer?
#include <cmath>
#include <vector>

#include "findings/paired.h"
#include "findings/sample/means.h"
#include "statistical/coverage.h"

using namespace flattail::findings;
using namespace flattail::test;

namespace {

const double kZ95 = 1.64485362695147;

// A = 300 exp(.35 Z), B = 250 exp(.30 Z'), Z' correlated with Z; one day in two is drawn
// from the upper fifth of Z if stratified.
class RepairDays {
  public:
    RepairDays(double correlation, bool is_stratified, std::uint64_t seed)
        : correlation_(correlation), is_stratified_(is_stratified), random_(seed) {}

    void draw(std::size_t days) {
        a.clear(), b.clear(), weight.clear(), stratum.clear();
        for (std::size_t day = 0; day < days; ++day) {
            const bool upper = day % 2 == 1;
            double z = normal_(random_);
            while (is_stratified_ && (z > kFifth) != upper) z = normal_(random_);
            const double other =
                correlation_ * z +
                std::sqrt(1 - correlation_ * correlation_) * normal_(random_);
            a.push_back(300 * std::exp(.35 * z));
            b.push_back(250 * std::exp(.30 * other));
            weight.push_back(!is_stratified_ ? 1 : upper ? .4 : 1.6);
            if (is_stratified_) stratum.push_back(upper ? 1 : 0);
        }
    }
    Design design() const { return {weight, stratum}; }

    std::vector<double> a, b, weight;
    std::vector<std::uint8_t> stratum;

  private:
    static constexpr double kFifth = 0.841621233572914;  // 80 % point
    double correlation_;
    bool is_stratified_;
    std::mt19937_64 random_;
    std::normal_distribution<double> normal_;
};

// Lognormal means: 300 exp(.35^2/2) - 250 exp(.30^2/2).
const double kMeanDifference = 300 * std::exp(.06125) - 250 * std::exp(.045);
const double kP95Difference = 300 * std::exp(.35 * kZ95) - 250 * std::exp(.30 * kZ95);

void check_differences(RepairDays days, std::size_t count) {
    Cover of_mean, of_quantile;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        days.draw(count);
        of_mean.add(estimate_mean(difference_by_day(days.a, days.b), days.design()),
                    kMeanDifference);
        const WeightedSample a(days.a, days.design()), b(days.b, days.design());
        of_quantile.add(estimate_quantile_difference(a, b, .95), kP95Difference);
    }
    check_cover(of_mean);
    check_cover(of_quantile);
}

}  // namespace

TEST_CASE("intervals of differences cover when most luck is shared") {
    check_differences({.9, false, 1}, 1000);
    check_differences({.9, true, 2}, 1000);
}

TEST_CASE("intervals of differences cover when little luck is shared") {
    check_differences({.2, false, 3}, 1000);
    check_differences({.2, true, 4}, 1000);
}

TEST_CASE("intervals of the chance of being faster cover") {
    // P(A < B): log 300/250 + .35 Z - .30 Z' < 0; Z, Z' independent: normal, exact.
    RepairDays days(0, false, 5);
    const double sd = std::hypot(.35, .30);
    const double chance = .5 * std::erfc(std::log(300.0 / 250) / sd / std::sqrt(2.0));
    Cover cover;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        days.draw(400);
        cover.add(
            compare_pair({days.a, days.a}, {days.b, days.b}, days.design()).chance_faster,
            chance);
    }
    check_cover(cover);
}

TEST_CASE("shared luck leaves the published variance of a difference") {
    // 300 exp(.35 Z) - 250 exp(.30 Z): 1229.20159211 with one Z, 19697.3898453 with two
    // (lognormal moments). Kurtosis of the difference below 40: 4.9 sqrt(40/4e5) = 4.9 %.
    const double days = 4e5;
    const auto variance = [&](double correlation) {
        RepairDays drawn(correlation, false, 6);
        drawn.draw(static_cast<std::size_t>(days));
        const double error =
            estimate_mean(difference_by_day(drawn.a, drawn.b), drawn.design())
                .standard_error;
        return days * error * error;
    };
    CHECK(std::fabs(variance(1) / 1229.20159211 - 1) < .049);
    CHECK(std::fabs(variance(0) / 19697.3898453 - 1) < .049);
    CHECK_FALSE(std::fabs(variance(.99) / 1229.20159211 - 1) < .049);
}

TEST_CASE("flats thinned from the same flats leave the published variance") {
    // Rates .06 and .04 a race, the latter a share of the former, same repairs: variance
    // of the difference .02 E(R^2) = 2299.71836377; drawn apart .1 E(R^2) =
    // 11498.5918188.
    // Kurtosis about E(R^4)/(.02 E(R^2)^2) = 80: 4.9 sqrt(80/4e5) = 6.9 %.
    const std::size_t days = 400000;
    std::mt19937_64 random(7);
    std::poisson_distribution<int> flats(.06), apart(.04);
    std::bernoulli_distribution kept(.04 / .06);
    std::lognormal_distribution<double> repair(std::log(300.0), .35);
    std::vector<double> a(days), thinned(days), other(days), ones(days, 1.0);
    for (std::size_t day = 0; day < days; ++day) {
        for (int flat = flats(random); flat > 0; --flat) {
            const double delay = repair(random);
            a[day] += delay;
            if (kept(random)) thinned[day] += delay;
        }
        for (int flat = apart(random); flat > 0; --flat) other[day] += repair(random);
    }
    const auto variance = [&](const std::vector<double>& b) {
        const double error =
            estimate_mean(difference_by_day(a, b), {ones, {}}).standard_error;
        return static_cast<double>(days) * error * error;
    };
    CHECK(std::fabs(variance(thinned) / 2299.71836377 - 1) < .069);
    CHECK(std::fabs(variance(other) / 11498.5918188 - 1) < .069);
    CHECK_FALSE(std::fabs(variance(other) / 2299.71836377 - 1) < .069);
}

// Do 95 % intervals of single-setup findings hold the exact answer 95 times in 100?
#include <boost/math/distributions/normal.hpp>
#include <functional>

#include "findings/sample/means.h"
#include "findings/sample/tail.h"
#include "findings/sample/weighted_sample.h"
#include "statistical/coverage.h"
#include "statistical/flat_days.h"

using namespace flattail::findings;
using namespace flattail::test;

namespace {

Cover repeat(FlatDays days, std::size_t count,
             const std::function<void(const FlatDays&, Cover&)>& ask) {
    Cover cover;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        days.draw(count);
        ask(days, cover);
    }
    return cover;
}

void ask_mean(const FlatDays& days, Cover& cover) {
    cover.add(estimate_mean(days.time(), days.design()), kMeanTime);
}

void ask_p95(const FlatDays& days, Cover& cover) {
    const WeightedSample sample(days.time(), days.design());
    cover.add(sample.quantile_interval(.95), sample.quantile(.95), kP95);
}

void ask_p99(const FlatDays& days, Cover& cover) {
    const WeightedSample sample(days.time(), days.design());
    cover.add(sample.quantile_interval(.99), sample.quantile(.99), kP99);
}

void ask_worst_average(const FlatDays& days, Cover& cover) {
    const std::vector<double> delay = days.delay();
    const WeightedSample sample(delay, days.design());
    cover.add(estimate_worst_average(sample, .95), kWorstDelay95);
}

void ask_chance(const FlatDays& days, Cover& cover) {
    const WeightedSample sample(days.time(), days.design());
    const Estimate chance =
        sample.share_between(kRideTime + 300, std::numeric_limits<double>::max());
    cover.add(chance_interval(chance, sample.effective_size()), chance.value,
              kChanceBeyond300);
}

}  // namespace

TEST_CASE("intervals of the mean cover, plain and stratified") {
    check_cover(repeat({Spares::kUnlimited, false, 1}, 2000, ask_mean));
    check_cover(repeat({Spares::kUnlimited, true, 2}, 400, ask_mean));
}

TEST_CASE("intervals of the 95 % mark cover, plain and stratified") {
    // Fewer plain days leave the lower limit on the atom of days without a flat.
    check_cover(repeat({Spares::kTwo, false, 3}, 8000, ask_p95));
    check_cover(repeat({Spares::kTwo, true, 4}, 800, ask_p95));
}

TEST_CASE("intervals of the 99 % mark cover, plain and stratified") {
    check_cover(repeat({Spares::kTwo, false, 5}, 2000, ask_p99));
    check_cover(repeat({Spares::kTwo, true, 6}, 400, ask_p99));
}

TEST_CASE("intervals of the average of the worst days cover, plain and stratified") {
    check_cover(repeat({Spares::kUnlimited, false, 7}, 2000, ask_worst_average));
    check_cover(repeat({Spares::kUnlimited, true, 8}, 400, ask_worst_average));
}

TEST_CASE("intervals of a chance cover, plain and stratified") {
    check_cover(repeat({Spares::kTwo, false, 9}, 2000, ask_chance));
    check_cover(repeat({Spares::kTwo, true, 10}, 400, ask_chance));
}

TEST_CASE("intervals cover when every day has a weight of its own") {
    // Drawn from N(0, 1.3), weighted to N(0, 1).
    const boost::math::normal law, drawn(0, 1.3);
    const double p95 = 1.64485362695147;
    std::mt19937_64 random(11);
    std::normal_distribution<double> normal(0, 1.3);
    Cover of_mean, of_quantile;
    std::vector<double> values(600), weight(600);
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        for (std::size_t i = 0; i < values.size(); ++i) {
            values[i] = normal(random);
            weight[i] = pdf(law, values[i]) / pdf(drawn, values[i]);
        }
        const WeightedSample sample(values, {weight, {}});
        of_mean.add(estimate_mean(values, {weight, {}}), 0);
        of_quantile.add(sample.quantile_interval(.95), sample.quantile(.95), p95);
    }
    check_cover(of_mean);
    check_cover(of_quantile);
}

TEST_CASE("counting the flats first leaves the variance within the counts") {
    // Exact: 795.431842907 of 6899.15509131 under proportional numbers (Cochran 1977,
    // chapter 5). About 11,300 repairs fix the variance of a repair, kurtosis 5.4, to
    // sqrt(4.4/11300) = 2 %; the plain variance, kurtosis about 37, to sqrt(36/2e5) = 1.4
    // %.
    // Bounds 4.9 of these.
    const double days = 2e5;
    std::mt19937_64 random(12);
    std::lognormal_distribution<double> repair(std::log(300.0), .35);
    std::vector<double> time, weight;
    std::vector<std::uint8_t> stratum;
    for (std::uint8_t flats = 0; flats < 4; ++flats) {
        const auto count = static_cast<std::size_t>(std::lround(kFlats[flats] * days));
        for (std::size_t day = 0; day < count; ++day) {
            double sum = kRideTime;
            for (int flat = 0; flat < flats; ++flat) sum += repair(random);
            time.push_back(sum);
            weight.push_back(kFlats[flats] * days / static_cast<double>(count));
            stratum.push_back(flats);
        }
    }
    const Estimate counted = estimate_mean(time, {weight, stratum});
    const Estimate ignored = estimate_mean(time, {weight, {}});
    const auto variance = [&](const Estimate& e) {
        return days * e.standard_error * e.standard_error;
    };
    CHECK(std::fabs(variance(counted) / kVarianceWithin - 1) < 4.9 * .02);
    CHECK(std::fabs(variance(ignored) / kVariance - 1) < 4.9 * .014);
    CHECK_FALSE(std::fabs(variance(ignored) / kVarianceWithin - 1) < 4.9 * .02);
    CHECK(std::fabs(counted.value - kMeanTime) < 4.9 * counted.standard_error);
}

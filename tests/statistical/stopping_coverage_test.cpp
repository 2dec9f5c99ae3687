// Do intervals still cover when they themselves decided when to stop?
#include <cmath>
#include <functional>

#include "findings/sample/means.h"
#include "findings/sample/tail.h"
#include "findings/sample/weighted_sample.h"
#include "findings/stopping.h"
#include "statistical/coverage.h"
#include "statistical/flat_days.h"

using namespace flattail::findings;
using namespace flattail::test;

namespace {

struct Look {
    double value = 0;
    Interval limits;

    double half_width() const { return .5 * (limits.high - limits.low); }
};

struct Stopped {
    Cover cover;
    int early = 0;  // stopped before the last look
    int first = 0;  // stopped at the first
};

Stopped stop_and_ask(FlatDays days, const StoppingRule& rule, double truth,
                     const std::function<Look(const FlatDays&)>& look_at) {
    Stopped stopped;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        days.clear();
        Look look;
        std::uint64_t count = 0;
        auto reason = StoppingReason::kGoOn;
        while (reason == StoppingReason::kGoOn) {
            count = next_look(rule, count);
            days.grow_to(static_cast<std::size_t>(count));
            look = look_at(days);
            reason = decide_stopping(rule, count, look.half_width());
        }
        stopped.cover.add(look.limits, look.value, truth);
        if (reason == StoppingReason::kPreciseEnough) ++stopped.early;
        if (count == rule.first_look_days) ++stopped.first;
    }
    return stopped;
}

// The rule must matter: repetitions stop at different looks.
void check_stopped(const Stopped& stopped) {
    INFO("early " << stopped.early << ", at the first look " << stopped.first);
    CHECK(stopped.early > kRepetitions / 2);
    CHECK(stopped.first > kRepetitions / 50);
    CHECK(stopped.first < kRepetitions * 49 / 50);
    check_cover(stopped.cover);
}

Look look_at_mean(const FlatDays& days) {
    const Estimate mean = estimate_mean(days.time(), days.design());
    return {mean.value, interval_of(mean)};
}

Look look_at_p95(const FlatDays& days) {
    const WeightedSample sample(days.time(), days.design());
    return {sample.quantile(.95), sample.quantile_interval(.95)};
}

Look look_at_worst(const FlatDays& days) {
    const std::vector<double> delay = days.delay();
    const Estimate worst =
        estimate_worst_average(WeightedSample(delay, days.design()), .95);
    return {worst.value, interval_of(worst)};
}

}  // namespace

TEST_CASE("a mean covers after stopping, plain and stratified") {
    check_stopped(stop_and_ask({Spares::kUnlimited, false, 1}, {2.54, 16384}, kMeanTime,
                               look_at_mean));
    check_stopped(stop_and_ask({Spares::kUnlimited, true, 2}, {.329, 16384}, kMeanTime,
                               look_at_mean));
}

TEST_CASE("a 95 % mark covers after stopping, stratified") {
    check_stopped(stop_and_ask({Spares::kTwo, true, 3}, {5.6, 16384}, kP95, look_at_p95));
}

TEST_CASE("an average of the worst days covers after stopping, stratified") {
    check_stopped(stop_and_ask({Spares::kUnlimited, true, 4}, {6.3, 16384}, kWorstDelay95,
                               look_at_worst));
}

// Do the intervals of `why` hold the exact answer? Break-evens, means after a change,
// what knowing is worth, what one fact does, and differences of bad days.
#include <cmath>
#include <vector>

#include "findings/knowledge/effects.h"
#include "findings/knowledge/information.h"
#include "findings/paired.h"
#include "findings/questions/break_even.h"
#include "findings/questions/changed_mean.h"
#include "findings/sample/means.h"
#include "statistical/coverage.h"
#include "unit/findings/knowledge/made_days.h"

using namespace flattail::findings;
using namespace flattail::test;

namespace {

// On each day the difference is a + b x, a exponential and b normal: it breaks even on
// average at x = - E a / E b = 5.
class Lines {
  public:
    explicit Lines(std::uint64_t seed) : random_(seed) {}

    std::vector<ScanPoint> scan(std::size_t days) {
        std::vector<double> a(days), b(days), difference(days), ones(days, 1.0);
        for (std::size_t day = 0; day < days; ++day) {
            a[day] = -20 * exponential_(random_);
            b[day] = 4 + 6 * normal_(random_);
        }
        std::vector<ScanPoint> points;
        for (int i = 0; i <= 32; ++i) {
            const double x = i / 3.2;
            for (std::size_t day = 0; day < days; ++day)
                difference[day] = a[day] + b[day] * x;
            points.push_back({x, estimate_mean(difference, {ones, {}})});
        }
        return points;
    }

  private:
    std::mt19937_64 random_;
    std::exponential_distribution<double> exponential_;
    std::normal_distribution<double> normal_;
};

}  // namespace

TEST_CASE("intervals of a break-even cover") {
    Lines lines(1);
    Cover cover;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        const auto found = find_break_even(lines.scan(400));
        REQUIRE(found.size() == 1);
        cover.add({found[0].interval.low, found[0].interval.high}, found[0].x, 5);
    }
    check_cover(cover);
}

TEST_CASE("intervals of a mean after a change cover") {
    // Judged differences with rare long losses; the change makes losses longer by half
    // and every day slower by 3: mean .05 x 500 x 1.5 + 3 - 20.
    std::mt19937_64 random(2);
    std::bernoulli_distribution flat(.05);
    std::exponential_distribution<double> loss(1 / 500.0);
    std::normal_distribution<double> legs(-20, 40);
    const std::size_t whole = 8000, again = 2000;
    const std::vector<double> ones(whole, 1.0);
    const Design part{std::span(ones).first(again), {}};
    Cover cover;
    std::vector<double> before(whole), after(again);
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        for (std::size_t day = 0; day < whole; ++day) {
            const double lost = flat(random) ? loss(random) : 0, base = legs(random);
            before[day] = base + lost;
            if (day < again) after[day] = base + 1.5 * lost + 3;
        }
        const Estimate mean = estimate_mean(before, {ones, {}});
        cover.add(
            estimate_changed_mean({mean, double(whole)},
                                  {std::span(before).first(again), after, part, part}),
            .05 * 500 * 1.5 + 3 - 20);
    }
    check_cover(cover);
}

TEST_CASE("intervals of what knowing is worth, and of what one fact does, cover") {
    // Difference 10 + 12 z0 + 16 z1 and luck: closed forms for a normal difference; at
    // the 90th percentile of z0 the expected difference is 10 + 12 x 1.28155.
    const MadeLaw law{2, 2, 15, [](const std::vector<double>& z, std::size_t k) {
                          return k == 0 ? 9500 : 9510 + 12 * z[0] + 16 * z[1];
                      }};
    const std::vector<double> one{1, 0}, all{1, 1};
    Cover of_one, of_all, of_fact;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        const MadeDays days = make_days(law, 2048, 100 + std::uint64_t(repetition));
        const KnowledgeModel model = fit_days(days, {2, {}});
        of_one.add(value_of_learning(model, days.draws(), one, Better::kSmaller),
                   value_of_knowing_normal(10, 12));
        of_all.add(value_of_learning(model, days.draws(), all, Better::kSmaller),
                   value_of_knowing_normal(10, 20));
        const Estimate fact = input_effects(model, {1, 0})[0].at_high;
        const double half = kJackknifeFactor * fact.standard_error;
        of_fact.add({fact.value - half, fact.value + half}, fact.value,
                    10 + 12 * 1.2815515655446);
    }
    check_cover(of_one);
    check_cover(of_all);
    check_cover(of_fact);
}

TEST_CASE("intervals of a difference of bad days cover") {
    // Two normal times, correlation .8: the worst 1 in 20 of N(m, s) average m + 2.06271
    // s (closed form), so A - B is 10 + 2.06271 x (60 - 50).
    std::mt19937_64 random(4);
    std::normal_distribution<double> normal;
    const std::size_t count = 2000;
    const std::vector<double> ones(count, 1.0);
    std::vector<double> a(count), b(count);
    Cover cover;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        for (std::size_t day = 0; day < count; ++day) {
            const double z = normal(random);
            a[day] = 9510 + 60 * z;
            b[day] = 9500 + 50 * (.8 * z + .6 * normal(random));
        }
        const WeightedSample of_a(a, {ones, {}}), of_b(b, {ones, {}});
        cover.add(estimate_worst_difference(of_a, of_b, .95), 10 + 2.06271280751 * 10);
    }
    check_cover(cover);
}

// Days drawn in groups by their number of points, and what each then weighs.
//
// Null of each statistical check: the weighted days have the Poisson law of plain ones.
// All inputs are certain, so the standard error is exact: a sum over Poisson
// probabilities (Boost.Math). Bound 4.9 standard errors.
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <vector>

#include "drawn_days.h"
#include "sampling/flat_points.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::sampling;
using namespace flattail::test;

namespace {

constexpr double kRoadM = 90000.0;
constexpr double kPerDay = 0.06;  // one per 1500 km
constexpr int kBlocks = 10000;    // 640,000 days
constexpr int kMostCounted = 40;  // far in the tail at the means used here

using Figure = std::function<double(int)>;  // of a day, from its number of points

double find_share(int group) {
    return kGroupLanes[static_cast<std::size_t>(group)] / static_cast<double>(kLanes);
}

bool may_hold(int group, int count) {
    return group == 0 || group == std::min(count, 3) + 1;
}

// Chance that a plain day belongs to the group.
double find_chance(int group, double mean) {
    const boost::math::poisson law(mean);
    if (group == 4) return cdf(complement(law, 2.0));
    return group == 0 ? 1.0 : pdf(law, static_cast<double>(group - 1));
}

// The weight by its definition, plain days' share and own group's share over its chance.
double state_weight(int count, double mean) {
    const int group = std::min(count, 3) + 1;
    return 1.0 / (find_share(0) + find_share(group) / find_chance(group, mean));
}

struct Law {
    double mean = 0.0;
    double variance = 0.0;  // of one block's sum, groups of fixed size
};

// What a day with n points adds, on average and squared, before its weight.
struct Moments {
    Figure first;
    Figure second;
};

// Mean and exact variance of the weighted figure, summed over a block of 64 days.
Law compute_law(const Moments& figure, double mean) {
    const boost::math::poisson law(mean);
    Law sum;
    for (int group = 0; group < kGroups; ++group) {
        double first = 0.0, second = 0.0;
        for (int n = 0; n < kMostCounted; ++n) {
            if (!may_hold(group, n)) continue;
            const double chance = pdf(law, n) / find_chance(group, mean);
            const double weight = state_weight(n, mean);
            first += chance * weight * figure.first(n);
            second += chance * weight * weight * figure.second(n);
        }
        const int lanes = kGroupLanes[static_cast<std::size_t>(group)];
        sum.mean += lanes * first;
        sum.variance += lanes * (second - first * first);
    }
    return sum;
}

Law compute_law(const Figure& figure, double mean) {
    return compute_law({figure, [&](int n) { return figure(n) * figure(n); }}, mean);
}

// Of n points each is kept with chance q: binomial, E k = n q, E k^2 = n q (1 - q + n q).
double compute_thinned_variance(double mean, double q) {
    const Moments kept{[=](int n) { return n * q; },
                       [=](int n) { return n * q * (1.0 - q + n * q); }};
    return compute_law(kept, mean).variance;
}

// Weighted sum of the figure over all days; points below `height` are counted.
double sum_drawn(const scenario::Model& model, const Figure& figure, double height) {
    Days days(model, make_road(1.0), DrawnAs::kGrouped);
    double sum = 0.0;
    for (std::uint64_t b = 0; b < kBlocks; ++b) {
        const DayBlock& block = days.draw(b * kLanes);
        std::array<int, kLanes> count{};
        for (const FlatPoint& p : block.points)
            count[p.lane] += p.height < height ? 1 : 0;
        for (std::size_t j = 0; j < kLanes; ++j) {
            sum += block.weight[j] * figure(count[j]);
        }
    }
    return sum;
}

bool agrees(double sum, double exact_per_day, double block_variance) {
    const double exact = exact_per_day * kBlocks * kLanes;
    return std::abs(sum - exact) <= kStandardErrors * std::sqrt(block_variance * kBlocks);
}

double one(int) { return 1.0; }
double number(int n) { return n; }
double many(int n) { return n >= 3 ? 1.0 : 0.0; }

}  // namespace

TEST_CASE("the groups share out a block and hold the points they are named for") {
    int lanes = 0;
    for (const int share : kGroupLanes) lanes += share;
    CHECK(lanes == kLanes);
    const scenario::Model model = make_cut_model(kPerDay, kRoadM, 3.0);
    Days days(model, make_road(1.0), DrawnAs::kGrouped);
    for (std::uint64_t b = 0; b < 50; ++b) {
        const DayBlock& block = days.draw(b * kLanes);
        std::array<int, kGroups> size{};
        for (std::size_t j = 0; j < kLanes; ++j) {
            const auto group = static_cast<int>(block.group[j]);
            size[static_cast<std::size_t>(group)] += 1;
            REQUIRE(may_hold(group, count_below(block, j, 3.0)));
        }
        REQUIRE(size == kGroupLanes);
    }
}

TEST_CASE("each day weighs what the shares and the chance of its group say") {
    const double mean = 3.0 * kPerDay;
    const scenario::Model model = make_cut_model(kPerDay, kRoadM, 3.0);
    Days days(model, make_road(1.0), DrawnAs::kGrouped);
    const DayBlock& block = days.draw(0);
    for (std::size_t j = 0; j < kLanes; ++j) {
        const double stated = state_weight(count_below(block, j, 3.0), mean);
        CHECK(block.weight[j] == Approx(stated).epsilon(1e-12));
        CHECK(block.weight[j] <= 1.0 / find_share(0));
    }
}

TEST_CASE("in theory the weights are one on average and leave the Poisson law alone") {
    for (const double mean : {0.001, 0.06, 0.9, 5.0}) {
        CAPTURE(mean);
        const boost::math::poisson law(mean);
        CHECK(compute_law(one, mean).mean / kLanes == Approx(1).epsilon(1e-12));
        CHECK(compute_law(number, mean).mean / kLanes == Approx(mean).epsilon(1e-11));
        CHECK(compute_law(many, mean).mean / kLanes ==
              Approx(cdf(complement(law, 2.0))).epsilon(1e-11));
    }
}

TEST_CASE("drawn weights, counts and rare days meet the exact values") {
    for (const double mean : {0.06, 0.9}) {
        const scenario::Model model = make_cut_model(mean, kRoadM);
        const boost::math::poisson law(mean);
        CAPTURE(mean);
        CHECK(agrees(sum_drawn(model, one, 1.0), 1.0, compute_law(one, mean).variance));
        CHECK(agrees(sum_drawn(model, number, 1.0), mean,
                     compute_law(number, mean).variance));
        CHECK(agrees(sum_drawn(model, many, 1.0), cdf(complement(law, 2.0)),
                     compute_law(many, mean).variance));
    }
}

TEST_CASE("three flats in ninety kilometres at one per 1500 km, seen in few days") {
    // 3.44182402447e-5 by mpmath. Plain days would need 900 times as many for this error.
    const Law law = compute_law(many, kPerDay);
    CHECK(law.mean / kLanes == Approx(3.44182402447e-5).epsilon(1e-10));
    const double plain_variance = kLanes * 3.44182402447e-5 * (1 - 3.44182402447e-5);
    CHECK(plain_variance / law.variance > 900.0);
}

TEST_CASE("points of grouped days thin like those of plain ones") {
    // Points up to height 3 are drawn: a setup with hazard c meets c x .06 on average.
    const scenario::Model model = make_cut_model(kPerDay, kRoadM, 3.0);
    for (const double c : {0.5, 1.0, 2.5}) {
        CAPTURE(c);
        CHECK(agrees(sum_drawn(model, number, c), c * kPerDay,
                     compute_thinned_variance(3.0 * kPerDay, c / 3.0)));
    }
}

TEST_CASE("grouped points fall to wheels, causes and places as their hazards do") {
    // Given their number, points are independent; those low enough for every process fall
    // to each in proportion to its intensity.
    constexpr double kLow = 0.3, kPinch = 0.25, kRear = 2.0 / 3.0, kDirtyM = 180000.0;
    scenario::Model model = make_cut_model(kPerDay, kDirtyM);
    support::fix_input(model, model.flats.pinch_share, kPinch);
    Days days(model, make_road(4.0), DrawnAs::kGrouped);
    int all = 0, rear = 0, pinch = 0;
    std::vector<double> cut_places;
    for (std::uint64_t b = 0; b < 2000; ++b) {
        const DayBlock& block = days.draw(b * kLanes);
        for (const FlatPoint& p : block.points) {
            if (block.group[p.lane] == DayGroup::kPlain || p.height >= kLow) continue;
            all += 1;
            rear += p.wheel == 1 ? 1 : 0;
            pinch += p.cause == FlatCause::kPinch ? 1 : 0;
            if (p.cause == FlatCause::kCut) cut_places.push_back(p.place_m);
        }
    }
    // Debris doubles the cuts of this road and leaves its pinches alone.
    const double pinch_share = kPinch / (kPinch + 2.0 * (1.0 - kPinch));
    REQUIRE(all > 10000);
    CHECK(has_share(rear, all, kRear));
    CHECK(has_share(pinch, all, pinch_share));
    CHECK(follows(cut_places, [](double s) {
        return (std::min(s, 60000.0) + 4.0 * std::max(s - 60000.0, 0.0)) / kDirtyM;
    }));
    CHECK_FALSE(has_share(rear, all, 1.05 * kRear));
}

TEST_CASE("twin: rates or weights five per cent off are found") {
    const scenario::Model often = make_cut_model(1.05 * kPerDay, kRoadM);
    CHECK_FALSE(agrees(sum_drawn(often, number, 1.0), kPerDay,
                       compute_law(number, kPerDay).variance));
    CHECK_FALSE(agrees(sum_drawn(often, many, 1.0), 3.44182402447e-5,
                       compute_law(many, kPerDay).variance));
    const scenario::Model model = make_cut_model(kPerDay, kRoadM);
    const auto heavy = [](int n) { return n > 0 ? 1.05 : 1.0; };
    CHECK_FALSE(
        agrees(sum_drawn(model, heavy, 1.0), 1.0, compute_law(one, kPerDay).variance));
}

TEST_CASE("without any hazard there are no points and weights still sum to the days") {
    const scenario::Model model = make_cut_model(0.0, kRoadM);
    Days days(model, make_road(1.0), DrawnAs::kGrouped);
    const DayBlock& block = days.draw(0);
    CHECK(block.points.empty());
    double sum = 0.0;
    for (const double weight : block.weight) sum += weight;
    CHECK(sum == Approx(kLanes).epsilon(1e-14));
}

TEST_CASE("on uncertain days weighted and plain counts agree") {
    // Null: equal means. Two samples of 3000 blocks; blocks are independent and alike, so
    // their own variance serves.
    scenario::Model model = support::make_race_model();
    support::fix_input(model, model.flats.training_per_m, 1.0 / 1e6);
    constexpr int kFew = 3000;
    const auto measure = [&](DrawnAs drawn_as, std::uint64_t first_block, double scale) {
        Days days(model, make_road(4.0), drawn_as);
        double first = 0.0, second = 0.0;
        for (std::uint64_t b = first_block; b < first_block + kFew; ++b) {
            const DayBlock& block = days.draw(b * kLanes);
            double sum = 0.0;
            for (const FlatPoint& p : block.points) {
                sum += p.height < 1.0 ? scale * block.weight[p.lane] : 0.0;
            }
            first += sum / kFew;
            second += sum * sum / kFew;
        }
        return Law{first, (second - first * first) / (kFew - 1)};
    };
    const auto are_equal = [](const Law& a, const Law& b) {
        return std::abs(a.mean - b.mean) <=
               kStandardErrors * std::sqrt(a.variance + b.variance);
    };
    const Law plain = measure(DrawnAs::kPlain, 0, 1.0);
    CHECK(are_equal(plain, measure(DrawnAs::kGrouped, kFew, 1.0)));
    CHECK_FALSE(are_equal(plain, measure(DrawnAs::kGrouped, kFew, 1.1)));
}

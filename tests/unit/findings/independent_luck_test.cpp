#include "findings/independent_luck.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include "findings/paired.h"
#include "support/catch.h"

using namespace flattail::findings;

namespace {

struct Days {
    std::vector<double> legs, delay_a, delay_b, weight;
    std::vector<std::uint8_t> flats;
};

// Both setups meet the same flat on the same day, one day in four if drawn plainly; flat
// days are drawn more often than they happen and carry less weight.
Days draw_days(std::size_t count, double flat_share) {
    Days days;
    std::mt19937_64 random(21);
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> uniform;
    for (std::size_t i = 0; i < count; ++i) {
        const bool flat = uniform(random) < flat_share;
        days.flats.push_back(flat ? 1 : 0);
        days.legs.push_back(9500 + 80 * normal(random));
        days.delay_a.push_back(flat ? 300 * std::exp(.35 * normal(random)) : 0);
        days.delay_b.push_back(flat ? days.delay_a.back() + 10 : 0);
        days.weight.push_back(flat ? .25 / flat_share : .75 / (1 - flat_share));
    }
    return days;
}

double share_of_flats_in_both(const Days& days, const std::vector<double>& other_finish) {
    double both = 0, total = 0;
    for (std::size_t i = 0; i < days.legs.size(); ++i) {
        total += days.weight[i];
        if (days.delay_a[i] > 0 && other_finish[i] > days.legs[i]) both += days.weight[i];
    }
    return both / total;
}

}  // namespace

TEST_CASE("with equal weights every day's flats are used exactly once") {
    const Days days = draw_days(1000, .25);
    const std::vector<double> ones(1000, 1.0), no_legs(1000, 0.0);
    std::vector<double> dealt = exchange_flats({no_legs, days.delay_b}, {ones, {}, 7});
    CHECK(dealt != days.delay_b);
    std::vector<double> original = days.delay_b;
    std::sort(dealt.begin(), dealt.end());
    std::sort(original.begin(), original.end());
    CHECK(dealt == original);
}

TEST_CASE("the same seed deals the same days, another seed others") {
    const Days days = draw_days(500, .25);
    const LegsAndFlats setup{days.legs, days.delay_b};
    const auto first = exchange_flats(setup, {days.weight, {}, 1});
    CHECK(first == exchange_flats(setup, {days.weight, {}, 1}));
    CHECK(first != exchange_flats(setup, {days.weight, {}, 2}));
}

TEST_CASE("flats of two setups become independent, their share stays") {
    // Null: independent flats, chance of both 1/16. Days of equal weight give a standard
    // error of sqrt(1/16 x 15/16 / n), drawing flat days more often a smaller one; bound
    // 4.9 of the former, false alarm below 1e-6.
    for (const double drawn : {.25, .5}) {
        const std::size_t count = 40000;
        const Days days = draw_days(count, drawn);
        const auto finish =
            exchange_flats({days.legs, days.delay_b}, {days.weight, {}, 3});
        const double bound = 4.9 * std::sqrt(1.0 / 16 * 15 / 16 / count);
        CHECK(std::fabs(share_of_flats_in_both(days, finish) - 1.0 / 16) < bound);
        // Left on the same day they meet one time in four.
        std::vector<double> same(count);
        for (std::size_t i = 0; i < count; ++i) same[i] = days.legs[i] + days.delay_b[i];
        CHECK_FALSE(std::fabs(share_of_flats_in_both(days, same) - 1.0 / 16) < bound);
    }
}

TEST_CASE("the chance of being faster follows from independent flats") {
    // B loses 10 s more with every flat. Shared luck: B is never faster, and the days
    // without a flat are ties. Independent luck: B is faster when A alone flats (3/16),
    // and in about half of the days on which both do (1/32). Margins are 4.9 standard
    // errors.
    const Days days = draw_days(40000, .25);
    const auto finish = exchange_flats({days.legs, days.delay_b}, {days.weight, {}, 3});
    std::vector<double> a(finish.size()), b(finish.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        a[i] = days.legs[i] + days.delay_a[i];
        b[i] = days.legs[i] + days.delay_b[i];
    }
    const Design design{days.weight, {}};
    const double shared = compare_pair({b, b}, {a, a}, design).chance_faster.value;
    CHECK(shared == Approx(.375).margin(.006));
    const double faster =
        compare_pair({finish, finish}, {a, a}, design).chance_faster.value;
    // No flat on either side is a tie (9/16), half of it counted.
    CHECK(faster == Approx(3.0 / 16 + 1.0 / 32 + 9.0 / 32).margin(.012));
}

TEST_CASE("flats stay among the days they match") {
    std::vector<double> legs(600, 0.0), delay(600), ones(600, 1.0);
    std::vector<std::uint8_t> wet(600);
    for (std::size_t i = 0; i < 600; ++i) {
        wet[i] = i % 3 == 0 ? 1 : 0;
        delay[i] = wet[i] == 1 ? 500 : i % 2 == 0 ? 100 : 0;
    }
    const auto finish = exchange_flats({legs, delay}, {ones, wet, 5});
    for (std::size_t i = 0; i < 600; ++i) REQUIRE((finish[i] == 500) == (wet[i] == 1));
}

TEST_CASE("a race ended by flats ends another day's race") {
    const double inf = std::numeric_limits<double>::infinity();
    const std::vector<double> legs{1, 2, 3, 4}, delay{0, inf, 0, 0}, ones(4, 1.0);
    const auto finish = exchange_flats({legs, delay}, {ones, {}, 1});
    CHECK(std::count(finish.begin(), finish.end(), inf) == 1);
}

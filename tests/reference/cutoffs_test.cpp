// Cutoffs on the way against closed forms, through the public face: 90 km at a constant
// 34 km/h, so that km 45 is passed after 45/34 h, plus flats.
//
// Null: the study samples these chances. Bound: 4.9 of their own standard errors, a false
// alarm in a million. Fixed seed. Beside each a twin: the same check on a chance that is
// off by a named amount must fail.
#include <fmt/format.h>

#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "flattail/study.h"
#include "support/catch.h"

namespace {

using namespace flattail;

constexpr double kSigmas = 4.9;
constexpr double kHalfway_s = 45.0 / 34.0 * 3600.0;

SetupFindings study(const std::vector<std::string>& settings) {
    const std::string file =
        std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/exact_flats.toml";
    StudyOptions options;
    options.races = 200'000;
    options.seed = 20261125;
    return run_study(read_scenario({file, settings}), options).setups.front();
}

bool is_within(const Figure& figure, double exact) {
    return std::abs(figure.value - exact) <= kSigmas * figure.standard_error;
}

}  // namespace

TEST_CASE("who has a flat before a gate that leaves no time misses it", "[slow]") {
    // One flat in 1,500 km, and no repair takes less than a second.
    const SetupFindings found = study({fmt::format(
        "race.cutoff={{ at = \"45 km\", within = \"{} s\" }}", kHalfway_s + 1.0)});
    CHECK(is_within(found.over_cutoff, -std::expm1(-45.0 / 1500.0)));
    // The twin: a gate one kilometre on.
    CHECK_FALSE(is_within(found.over_cutoff, -std::expm1(-46.0 / 1500.0)));
}

TEST_CASE("a gate by the clock closes on days with a long swim", "[slow]") {
    // ln(swim / 35 min) has sd ln 1.1; five minutes of allowance are left.
    const SetupFindings found = study(
        {"race.wave=07:00", "race.swim={ median = \"35 min\", spread = 1.1 }",
         "race.transition=0 s", "flats.training=0 per 1000 km",
         fmt::format(
             "race.cutoff=[{{ at = \"45 km\", by = \"08:59:24\" }}, \"4:00:00\"]")});
    const double left_s = 8 * 3600.0 + 59 * 60.0 + 24.0 - 7 * 3600.0 - kHalfway_s;
    const auto chance = [](double swim_s) {
        return boost::math::cdf(boost::math::complement(
            boost::math::normal(), std::log(swim_s / 2100.0) / std::log(1.1)));
    };
    CHECK(is_within(found.over_cutoff, chance(left_s)));
    REQUIRE(found.no_finish_causes.size() == 1);
    CHECK(found.no_finish_causes.front().cause == "over the cutoff, km 45 by 08:59:24");
    // The twin: ten seconds more.
    CHECK_FALSE(is_within(found.over_cutoff, chance(left_s + 10.0)));
}

// Dry and wet days are a partition of the race days.
#include <cmath>

#include "flattail/study.h"
#include "support/catch.h"

using namespace flattail;

namespace {

constexpr double kChance = 0.3;
constexpr std::int64_t kRaces = 16384;

Findings run(const std::string& rain) {
    const Scenario scenario =
        read_scenario({FLATTAIL_SOURCE_DIR "/scenarios/wet-laps/scenario.toml", {rain}});
    StudyOptions options;
    options.races = kRaces;
    options.draw = DrawKind::kPlain;
    return run_study(scenario, options);
}

bool is_share(double found, double expected) {
    const double error = std::sqrt(expected * (1.0 - expected) / double{kRaces});
    return std::abs(found - expected) <= 4.9 * error;
}

}  // namespace

TEST_CASE("dry and wet days add up to all days") {
    const Findings found = run("weather.rain=\"30 %\"");
    REQUIRE(found.conditions.size() == 2);
    const ConditionFindings &dry = found.conditions[0], &wet = found.conditions[1];
    // Binomial, as many wet days as the forecast says; the twin is told another forecast.
    CHECK(is_share(wet.share.value, kChance));
    CHECK_FALSE(is_share(wet.share.value, kChance + 0.03));
    CHECK(dry.share.value + wet.share.value == Approx(1.0));
    for (const PairFindings& pair : found.pairs) {
        const auto s = static_cast<std::size_t>(pair.setup);
        const double mixed = dry.share.value * dry.setups[s].against_s.value +
                             wet.share.value * wet.setups[s].against_s.value;
        // The pair's mean is sharpened by what is known of the draws: within both errors.
        const double error =
            std::hypot(dry.share.value * dry.setups[s].against_s.standard_error,
                       wet.share.value * wet.setups[s].against_s.standard_error);
        CHECK(std::abs(mixed - pair.mean_s.value) <= 4.9 * error);
    }
    // Wet roads roll worse and cut more: METHOD 4.1, 5.2.
    for (std::size_t s = 0; s < found.setups.size(); ++s) {
        CHECK(wet.setups[s].typical_s > dry.setups[s].typical_s);
        CHECK(wet.setups[s].flat.value > dry.setups[s].flat.value);
    }
}

TEST_CASE("a day that is surely dry or surely wet is not split") {
    CHECK(run("weather.rain=\"0 %\"").conditions.empty());
    CHECK(run("weather.rain=\"100 %\"").conditions.empty());
}

// The advised setup with other pressures and kits: closed forms, limits and rules.
#include <algorithm>
#include <cmath>

#include "flattail/why.h"
#include "physics/rolling.h"
#include "study/questions/list_variants.h"
#include "support/catch.h"

using namespace flattail;

namespace {

const std::string kFolder = std::string(FLATTAIL_SOURCE_DIR) + "/";
const std::string kExactFlats = kFolder + "tests/support/scenarios/exact_flats.toml";
const std::string kTwoCrossings = kFolder + "tests/support/scenarios/two_crossings.toml";
const std::string kLakeside = kFolder + "scenarios/lakeside/scenario.toml";

WhyFindings ask(const std::string& path, std::int64_t races,
                const std::vector<std::string>& settings = {}) {
    StudyOptions options;
    options.races = races;
    return explain(read_scenario({path, settings}), options);
}

const VariantRow& get(const VariantFindings& found, const std::string& words) {
    for (const VariantRow& row : found.rows) {
        if (row.words == words) return row;
    }
    throw std::runtime_error("there is no row \"" + words + "\"");
}

bool has(const study::VariantList& list, const std::string& words) {
    return std::any_of(
        list.variants.begin(), list.variants.end(),
        [&](const study::Variant& variant) { return variant.words == words; });
}

study::VariantList list_latex(const std::string& pressure,
                              const std::vector<std::string>& more = {}) {
    std::vector<std::string> settings{"setup.Latex.pressure=\"" + pressure + "\""};
    settings.insert(settings.end(), more.begin(), more.end());
    const Scenario scenario = read_scenario({kLakeside, settings});
    return study::list_variants(study::prepare(scenario.model(), {}), 2);
}

double find_crr(double width_m, double gauge_pa) {
    physics::RollingLaw law;
    law.reference_pressure_pa = physics::find_reference_pressure_pa(width_m);
    physics::RollingState state;
    state.roughness_crr = physics::find_default_roughness_crr(physics::Surface::kCoarse);
    state.pressure_pa = gauge_pa;
    return physics::compute_crr(law, state);
}

}  // namespace

TEST_CASE("one tube less costs what the races with two flats cost", "[slow]") {
    // P(N = 2) = .00169517616045 for a mean of .06 (mpmath; actuar agrees). Such a
    // day counts as an hour lost instead of two repairs of 300 exp(.35^2 / 2) = 318.95 s.
    const WhyFindings why = ask(kExactFlats, 16384);
    const VariantRow& less = get(why.variants, "one ideal tube less");
    const double exact_s = 0.00169517616045 * (3600.0 - 2.0 * 318.95);
    const double error_s = less.average_change_s.standard_error;
    CHECK(std::abs(less.average_change_s.value - exact_s) < 4.9 * error_s);
    // The twin: half as many again would be seen.
    CHECK(std::abs(less.average_change_s.value - 1.5 * exact_s) > 4.9 * error_s);
    // A speed limit rules, so weight buys nothing: worse on bad days and no better else.
    CHECK(less.bad_days_change_s.value > 0);
    CHECK(std::abs(less.typical_change_s.value) < 1e-6);
}

TEST_CASE("the setup as it is differs from itself by nothing, to the bit", "[slow]") {
    const VariantFindings found = ask(kTwoCrossings, 256).variants;
    REQUIRE(found.setup == 1);
    const VariantRow& same = found.rows.front();
    CHECK(same.varied == Varied::kNothing);
    for (const Figure* change :
         {&same.typical_change_s, &same.bad_days_change_s, &same.average_change_s}) {
        CHECK(change->value == 0);
        CHECK(change->standard_error < 1e-9);
    }
    CHECK(same.beaten_by.empty());
}

TEST_CASE("at its best pressure a tyre is beaten by nothing and beats what is near",
          "[slow]") {
    // The best pressure is that of the rolling law alone: no flats, no weather.
    const double best_pa = 2.890e5;
    CHECK(find_crr(0.032, best_pa) < find_crr(0.032, best_pa - 5 * 6894.757));
    CHECK(find_crr(0.032, best_pa) < find_crr(0.032, best_pa + 5 * 6894.757));
    const VariantFindings best = ask(kTwoCrossings, 256).variants;
    CHECK(best.has_limits);
    CHECK(get(best, "5 psi (0.3 bar) more").beaten_by == "as it is");
    CHECK(best.rows.front().beaten_by.empty());
    // The twin: stated 10 psi too high, and advised all the same, 5 psi less beat it.
    const VariantFindings high = ask(kTwoCrossings, 256,
                                     {"setup.\"Wide tyre\".pressure=\"3.579 bar\"",
                                      "setup.\"Wide tyre\".rolling.save=\"4 W\""})
                                     .variants;
    REQUIRE(high.setup == 1);
    CHECK(high.rows.front().beaten_by == "5 psi (0.3 bar) less");
}

TEST_CASE("no pressure beyond a limit is listed") {
    const study::VariantList usual = list_latex("70 psi");
    CHECK(usual.has_limits);
    for (const char* words : {"10 psi (0.7 bar) less", "5 psi (0.3 bar) less",
                              "5 psi (0.3 bar) more", "10 psi (0.7 bar) more"}) {
        CHECK(has(usual, words));
    }
    // 6.5 bar are 94 psi, less what a warm noon adds.
    const study::VariantList high = list_latex("88 psi");
    CHECK(has(high, "5 psi (0.3 bar) less"));
    CHECK_FALSE(has(high, "10 psi (0.7 bar) more"));
    const study::VariantList low = list_latex("60 psi");
    CHECK_FALSE(has(low, "10 psi (0.7 bar) less"));
    CHECK(has(low, "10 psi (0.7 bar) more"));
}

TEST_CASE("a kit below the minimum is ruled out and named") {
    const study::VariantList strict =
        list_latex("70 psi", {"decision.minimum_kit=[\"tube\", \"tube\"]"});
    const study::VariantList free = list_latex("70 psi");
    const auto reason = [](const study::VariantList& list, const std::string& words) {
        for (const study::Variant& v : list.variants) {
            if (v.words == words) return v.ruled_out;
        }
        return std::string("not listed");
    };
    CHECK(reason(strict, "one butyl tube less").find("minimum kit") != std::string::npos);
    CHECK(reason(strict, "one cartridge 16 g less").empty());
    CHECK(reason(free, "one butyl tube less").empty());
}

TEST_CASE("what breaks a rule beats nothing, however fast", "[slow]") {
    // A tube less is lighter, so that it would be the fastest on typical days.
    const WhyFindings why =
        ask(kLakeside, 1024, {"decision.minimum_kit=[\"tube\", \"tube\"]"});
    const VariantRow& less = get(why.variants, "one butyl tube less");
    CHECK_FALSE(less.ruled_out.empty());
    CHECK(less.typical_change_s.value < 0);
    for (const VariantRow& row : why.variants.rows) CHECK(row.beaten_by != less.words);
}

TEST_CASE("a ceiling on flats at speed rules variants out", "[slow]") {
    const auto count = [](const WhyFindings& why) {
        return std::count_if(
            why.variants.rows.begin(), why.variants.rows.end(),
            [](const VariantRow& row) { return !row.ruled_out.empty(); });
    };
    const WhyFindings usual = ask(kLakeside, 1024);
    CHECK(count(usual) == 0);
    const auto chosen = static_cast<std::size_t>(usual.race.verdict.choice);
    // Just above what the choice has now: ten psi less pinch a little more.
    const double chance = usual.race.setups[chosen].flat_at_speed.value;
    const std::string most = std::to_string(100 * chance * 1.02) + " %";
    const WhyFindings capped =
        ask(kLakeside, 1024, {"decision.flats_at_speed_most=\"" + most + "\""});
    REQUIRE(capped.variants.setup == usual.race.verdict.choice);
    CHECK_FALSE(get(capped.variants, "10 psi (0.7 bar) less").ruled_out.empty());
}

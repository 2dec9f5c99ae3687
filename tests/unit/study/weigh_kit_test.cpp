// What each thing in a kit buys, against closed forms, and ceilings on flats at speed.
#include <cmath>

#include "flattail/study.h"
#include "scenario/model.h"
#include "support/catch.h"

using namespace flattail;

namespace {

const std::string kExactFlats =
    std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/exact_flats.toml";

const KitRow& find_row(const Findings& found, const std::string& item, bool added) {
    for (const KitRow& row : found.kit) {
        if (row.item == item && row.is_added == added) return row;
    }
    throw std::logic_error("no such row");
}

Findings study(const std::vector<std::string>& settings) {
    StudyOptions options;
    options.races = 4096;
    options.seed = 11;
    return run_study(read_scenario({kExactFlats, settings}), options);
}

}  // namespace

TEST_CASE("the second tube saves the races with exactly two flats") {
    // Null: N is Poisson with mean .06; with two tubes carried the last one is what
    // P(N = 2) = .00169517616045 hangs on, a third what P(N = 3) = 3.3903523209e-5 does
    // (mpmath; actuar agrees).
    const Findings found = study({});
    const KitRow& last = find_row(found, "ideal tube", false);
    CHECK(last.carried == 2);
    CHECK(std::abs(last.finishes.value - 0.00169517616045) <
          4.9 * last.finishes.standard_error);
    const KitRow& third = find_row(found, "tube", true);
    CHECK(std::abs(third.finishes.value - 3.3903523209e-5) <
          4.9 * third.finishes.standard_error);
    // The twin: half as many again would be seen.
    CHECK(std::abs(last.finishes.value - 1.5 * 0.00169517616045) >
          4.9 * last.finishes.standard_error);
    // What is saved is a finish for what a day without one counts as, less the repair.
    CHECK(last.saves_s.value > 0.8 * 0.0017 * (3600.0 - 1000.0));
}

TEST_CASE("where a speed limit rules, weight costs nothing") {
    const Findings found = study({});
    const KitRow& row = find_row(found, "ideal tube", false);
    CHECK(row.weighs_kg == Approx(0.105));
    CHECK(std::abs(row.costs_s.value) < 1e-6);
    CHECK(row.net_s.value == Approx(row.saves_s.value).epsilon(1e-6));
}

TEST_CASE("without flats a kit is weight alone") {
    const Findings found = study({"flats.training=\"0 per 1000 km\""});
    for (const KitRow& row : found.kit) {
        CAPTURE(row.item);
        CHECK(row.finishes.value == 0.0);
        CHECK(row.saves_s.value == 0.0);
    }
}

TEST_CASE("too many flats at speed rule a setup out, front apart") {
    const std::vector<std::string> fast = {"flats.at_speed=\"30 km/h\""};
    const auto with = [&](const std::string& ceiling) {
        std::vector<std::string> settings = fast;
        settings.push_back("decision.flats_at_speed_most=" + ceiling);
        return study(settings);
    };
    // One race in 17 has a flat, all at 34 km/h, a third at the front.
    CHECK(with("\"10 %\"").verdict.choice == 0);
    const Findings over = with("\"3 %\"");
    CHECK(over.verdict.choice == -1);
    CHECK(over.setups[0].vetoed);
    CHECK_FALSE(over.setups[0].cautions.empty());
    CHECK(with("{ any = \"10 %\", front = \"1 %\" }").verdict.choice == -1);
    CHECK(with("{ any = \"10 %\", front = \"3 %\" }").verdict.choice == 0);
}

TEST_CASE("a minimum kit that a setup lacks rules it out and says what is missing") {
    const auto read = [](const std::string& least) {
        return read_scenario({kExactFlats, {"decision.minimum_kit=" + least}});
    };
    CHECK_FALSE(read("[\"2 tubes\", \"pump\"]").model().setups[0].vetoed);
    const Scenario lacking = read("[\"3 tubes\", \"boot\"]");
    const auto& setup = lacking.model().setups[0];
    CHECK(setup.vetoed);
    CHECK(setup.cautions.back() ==
          "carries less than the minimum kit: 1 tube, 1 boot short");
}

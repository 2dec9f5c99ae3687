#include <algorithm>
#include <cmath>

#include "flattail/why.h"
#include "ride/road.h"
#include "study/questions/model_changes.h"
#include "support/catch.h"

using namespace flattail;

namespace {

const std::string kFolder = std::string(FLATTAIL_SOURCE_DIR) + "/";
const std::string kTwelveWatts = kFolder + "tests/support/scenarios/twelve_watts.toml";
const std::string kLakeside = kFolder + "scenarios/lakeside/scenario.toml";

WhyFindings ask(const std::string& path, std::int64_t races,
                const std::vector<std::string>& settings = {}, int threads = 0) {
    StudyOptions options;
    options.races = races;
    options.threads = threads;
    return explain(read_scenario({path, settings}), options);
}

const BreakEvenFindings& get(const WhyFindings& why, BreakEvenQuestion question,
                             int setup = 1) {
    for (const BreakEvenFindings& found : why.break_even) {
        if (found.question == question && found.setup == setup) return found;
    }
    throw std::runtime_error("the question was not asked");
}

}  // namespace

TEST_CASE("what is moved ends where it was told to, and only there") {
    const Scenario scenario = read_scenario({kLakeside, {}});
    const scenario::Model& model = scenario.model();
    const auto median_after = [&](BreakEvenQuestion question, double x, InputId id) {
        return ride::find_median(study::change_model(model, question, x), id);
    };
    CHECK(median_after(BreakEvenQuestion::kPower, 150, model.rider.power_w) ==
          Approx(150));
    CHECK(median_after(BreakEvenQuestion::kRepairTime, 20, model.repair.median_s) ==
          Approx(1200));
    CHECK(median_after(BreakEvenQuestion::kPressure, -5,
                       model.preparation.gauge_error_pa) == Approx(-5 * 6894.757));
    const scenario::Model thrice =
        study::change_model(model, BreakEvenQuestion::kFlatRate, 3);
    for (std::size_t s = 0; s < model.setups.size(); ++s) {
        const bool is_against = static_cast<int>(s) == model.decision.against;
        const auto find_cuts = [s](const scenario::Model& m) {
            const auto inner = static_cast<std::size_t>(m.setups[s].wheels[0].inner);
            const InputId id = m.inners[inner].cut_ratio;
            return id.is_set() ? ride::find_median(m, id) : 1.0;
        };
        CHECK(find_cuts(thrice) == Approx((is_against ? 1 : 3) * find_cuts(model)));
    }
}

TEST_CASE("a gain of watts is told back as it was stated") {
    // "12 W a pair at 45 km/h with 85 kg" is the unit of the question itself.
    const Scenario scenario = read_scenario({kTwelveWatts, {}});
    CHECK(study::find_rolling_gain_w(scenario.model(), 1) == Approx(12).epsilon(.002));
}

TEST_CASE("two setups that differ by watts alone break even when the watts are gone",
          "[slow]") {
    const WhyFindings why = ask(kTwelveWatts, 256);
    const BreakEvenFindings& gain = get(why, BreakEvenQuestion::kRollingGain);
    REQUIRE(gain.changes.size() == 1);
    CHECK(gain.now == Approx(12).epsilon(.002));
    CHECK(gain.changes[0].at == Approx(0).margin(.05));
    CHECK(gain.changes[0].better_above);
    // A step of the scan off would be 1.25 W.
    CHECK_FALSE(gain.changes[0].at == Approx(1.25).margin(.05));
}

TEST_CASE("within reason neither power nor pressure turns what only watts decide",
          "[slow]") {
    const WhyFindings why = ask(kTwelveWatts, 256);
    for (const BreakEvenQuestion question :
         {BreakEvenQuestion::kPower, BreakEvenQuestion::kPressure}) {
        CHECK(get(why, question).changes.empty());
        CHECK(get(why, question).scan.size() == 33);
    }
    // Decided at every value: the twelve watts are ahead all along.
    for (const ScanRow& row : get(why, BreakEvenQuestion::kPower).scan) {
        CHECK(row.difference.value < -4.9 * row.difference.standard_error);
    }
}

TEST_CASE("the scan passes through what the race itself found", "[slow]") {
    const WhyFindings why = ask(kLakeside, 4096);
    for (const PairFindings& pair : why.race.pairs) {
        const auto& scan = get(why, BreakEvenQuestion::kFlatRate, pair.setup).scan;
        CHECK(scan[16].difference.value == Approx(pair.mean_s.value).epsilon(1e-12));
    }
    // More flats never help: the difference rises from the first value to the last.
    const auto& latex = get(why, BreakEvenQuestion::kFlatRate, 2).scan;
    CHECK(latex.front().difference.value < latex.back().difference.value);
}

TEST_CASE("why gives the same bits for any number of threads", "[slow]") {
    const WhyFindings one = ask(kLakeside, 512, {}, 1),
                      three = ask(kLakeside, 512, {}, 3);
    REQUIRE(one.break_even.size() == three.break_even.size());
    for (std::size_t i = 0; i < one.break_even.size(); ++i) {
        const auto& a = one.break_even[i].scan;
        const auto& b = three.break_even[i].scan;
        REQUIRE(a.size() == b.size());
        for (std::size_t k = 0; k < a.size(); ++k) {
            CHECK(a[k].difference.value == b[k].difference.value);
        }
    }
    CHECK(one.information.rows[0].worth.value == three.information.rows[0].worth.value);
}

TEST_CASE("knowing one fact is never worth more than knowing all", "[slow]") {
    const WhyFindings why = ask(kLakeside, 8192);
    const auto& rows = why.information.rows;
    REQUIRE(rows.size() > 2);
    CHECK(rows[0].learning == Learning::kEverything);
    for (std::size_t i = 1; i < rows.size(); ++i) {
        CHECK(rows[i].worth.value <=
              rows[0].worth.value + 4.9 * rows[0].worth.standard_error);
        CHECK(rows[i].share <= 1);
        CHECK(rows[i].share > 0);
    }
}

TEST_CASE("a rule that is no average says why it cannot value knowing", "[slow]") {
    const WhyFindings why = ask(kLakeside, 512, {"decision.rule=\"90 %\""});
    CHECK(why.information.rows.empty());
    CHECK(why.information.why_not.find("no average") != std::string::npos);
    const WhyFindings worst = ask(kLakeside, 512, {"decision.rule=\"worst days\""});
    CHECK(worst.information.why_not.find("worst days") != std::string::npos);
}

TEST_CASE("a second costs its price over what is saved, where a second is saved",
          "[slow]") {
    const WhyFindings why =
        ask(kTwelveWatts, 256,
            {"setup.\"Usual tubes\".price=20", "setup.\"12 W less\".price=100"});
    REQUIRE(why.trade_off.size() == 2);
    const TradeOffRow& fast = why.trade_off[1];
    CHECK(fast.price.value() == 80);
    CHECK(fast.price_per_s.value() == Approx(80 / fast.saved_s.value));
    CHECK(why.trade_off[0].beaten_by == 1);
    CHECK(fast.beaten_by == -1);
    // Turned round, nothing is saved and no second has a price.
    const WhyFindings turned =
        ask(kTwelveWatts, 256,
            {"decision.against=\"12 W less\"", "setup.\"Usual tubes\".price=20"});
    CHECK(turned.trade_off[0].price.value() == 20);
    CHECK_FALSE(turned.trade_off[0].price_per_s.has_value());
}

TEST_CASE("a study too short for questions still answers") {
    const WhyFindings why = ask(kLakeside, 64);
    CHECK(why.break_even.empty());
    CHECK(why.moves.size() == 3);
    CHECK(why.trade_off.size() == 4);
}

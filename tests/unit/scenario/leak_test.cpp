// Losses of air as stated, against trade figures and against the exact calibration.
#include "scenario/leak.h"

#include <utility>

#include "chance/distribution.h"
#include "physics/inflation.h"
#include "scenario_texts.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::scenario;

namespace {

constexpr double kPsi_pa = 6894.757293168;
constexpr double kHour_s = 3600.0;
constexpr double kRoom_k = 293.15;

const Inner& find_inner(const Model& model, const std::string& name) {
    for (const Inner& inner : model.inners) {
        if (inner.name == name) return inner;
    }
    FAIL("no inner " << name);
    return model.inners.front();
}

Scenario read_with_all_inners() {
    std::string more;
    for (const char* inner : {"TPU", "tubeless", "light butyl"}) {
        more += std::string("[[setup]]\nname = \"with ") + inner +
                "\"\nlike = \"Latex\"\ninner = \"" + inner + "\"\n";
    }
    return read_smallest({}, more);
}

double lose_psi(const physics::WallLeak& wall, const physics::GasMix& start, double hours,
                double temperature_k = kRoom_k) {
    const physics::TubeState end = physics::follow_stay(
        {start, temperature_k}, wall,
        {hours * kHour_s, temperature_k, physics::kStandardPressure});
    return (physics::sum_pressure_pa(start) - physics::sum_pressure_pa(end.mix)) /
           kPsi_pa;
}

physics::GasMix air_at(double psi) {
    return physics::make_air(psi * kPsi_pa + physics::kStandardPressure);
}

physics::GasMix carbon_dioxide_at(double psi) {
    return physics::make_pure(physics::Gas::kCarbonDioxide,
                              psi * kPsi_pa + physics::kStandardPressure);
}

// The wall when the loss of air lies at `share` of its distribution.
physics::WallLeak wall_at(const Model& model, const Inner& inner, double share) {
    const auto quantile = [&](InputId id) {
        return id.is_set() ? chance::quantile(model.input(id).knowledge, share) : 0.0;
    };
    physics::WallLeak wall = inner.leak.wall;
    wall.rate_per_s = LeakRates(inner.leak)
                          .at({quantile(inner.leak.air_loss_pa),
                               quantile(inner.leak.carbon_dioxide_loss_pa)});
    return wall;
}

}  // namespace

TEST_CASE("default losses of air from 75 psi in 10 h are those of common practice") {
    const Scenario scenario = read_with_all_inners();
    const Model& m = scenario.model();
    struct Row {
        const char* inner;
        double low, mid, high;
    };
    for (const Row& row : {Row{"butyl", .2, .3, .8}, Row{"TPU", .2, .4, 1.5},
                           Row{"tubeless", .5, 1.2, 4.0}, Row{"latex", 3.0, 5.0, 9.0}}) {
        const Inner& inner = find_inner(m, row.inner);
        CAPTURE(row.inner);
        for (const auto& [share, psi] :
             {std::pair{.05, row.low}, {.5, row.mid}, {.95, row.high}}) {
            CHECK(lose_psi(wall_at(m, inner, share), air_at(75.0), 10.0) ==
                  Approx(psi).epsilon(.015));
        }
    }
}

TEST_CASE("default losses of carbon dioxide in 10 h are those of common practice") {
    const Scenario scenario = read_with_all_inners();
    const Model& m = scenario.model();
    struct Row {
        const char* inner;
        double low, mid, high;
    };
    for (const Row& row :
         {Row{"butyl", 4.0, 10.0, 15.0}, Row{"latex", 20.0, 35.0, 50.0}}) {
        const Inner& inner = find_inner(m, row.inner);
        CAPTURE(row.inner);
        for (const auto& [share, psi] :
             {std::pair{.05, row.low}, {.5, row.mid}, {.95, row.high}}) {
            CHECK(lose_psi(wall_at(m, inner, share), carbon_dioxide_at(75.0), 10.0) ==
                  Approx(psi).epsilon(.02));
        }
    }
}

TEST_CASE("as shipped latex loses 5 to 10 psi overnight and butyl that in a week") {
    // Common practice, from about 100 psi.
    const Scenario scenario = read_with_all_inners();
    const Model& m = scenario.model();
    const double night = lose_psi(find_inner(m, "latex").leak.wall, air_at(100), 11.0);
    CHECK(night > 5.0);
    CHECK(night < 10.0);
    const double week = lose_psi(find_inner(m, "butyl").leak.wall, air_at(100), 168.0);
    CHECK(week > 5.0);
    CHECK(week < 10.0);
}

TEST_CASE("as shipped carbon dioxide leaves every inner ten times as fast as nitrogen") {
    const Scenario scenario = read_with_all_inners();
    for (const Inner& inner : scenario.model().inners) {
        CAPTURE(inner.name);
        const auto rates = physics::compute_leak_rates_per_s(inner.leak.wall, kRoom_k);
        CHECK(rates[2] >= 9.9 * rates[0]);  // 35 and 5 psi give 10.0 for latex
    }
}

TEST_CASE("rates for another loss are those of a calibration to it") {
    const Scenario scenario = read_with_all_inners();
    for (const Inner& inner : scenario.model().inners) {
        CAPTURE(inner.name);
        for (const double factor : {.5, 1.0, 2.0}) {
            physics::ObservedLoss seen = inner.leak.air;
            seen.lost_pa *= factor;
            const auto exact = physics::scale_to_air_loss(inner.leak.wall, seen);
            const auto rates = LeakRates(inner.leak)
                                   .at({seen.lost_pa, inner.leak.carbon_dioxide.lost_pa});
            CHECK(rates[0] == Approx(exact.rate_per_s[0]).epsilon(.015));
            CHECK(rates[1] == Approx(exact.rate_per_s[1]).epsilon(.015));
        }
    }
}

TEST_CASE("a loss may be stated as seen, as a wall or as a rate") {
    const Scenario scenario = read_smallest({}, R"(
[[inner]]
name = "seen"
kind = "latex"
[inner.leak]
loses = "6 psi"
in = "12 h"
from = "80 psi"
at = "15 C"
co2 = { loses = "30 psi", in = "8 h", from = "80 psi" }
[[inner]]
name = "wall"
kind = "butyl"
leak = { wall = "0.7 mm" }
[[inner]]
name = "rate"
kind = "TPU"
leak = { rate = "1 % per h" }
[[setup]]
name = "A"
like = "Latex"
inner = "seen"
[[setup]]
name = "B"
like = "Latex"
inner = "wall"
[[setup]]
name = "C"
like = "Latex"
inner = "rate"
)");
    const Model& m = scenario.model();
    // The trace of carbon dioxide in air leaves at the rate of its own observation.
    const Inner& seen = find_inner(m, "seen");
    CHECK(lose_psi(seen.leak.wall, air_at(80), 12.0, 288.15) ==
          Approx(6.0).epsilon(2e-3));
    CHECK(lose_psi(seen.leak.wall, carbon_dioxide_at(80), 8.0) ==
          Approx(30.0).epsilon(1e-6));
    // Butyl walls predict what riders see; 28 mm tyre.
    const auto bare =
        physics::make_wall_leak({physics::WallMaterial::kButyl, .0007, .014});
    CHECK(lose_psi(find_inner(m, "wall").leak.wall, air_at(75), 10.0) ==
          Approx(lose_psi(bare, air_at(75), 10.0)).epsilon(.02));
    CHECK(lose_psi(find_inner(m, "rate").leak.wall, air_at(75), 1.0) ==
          Approx(.75).epsilon(.01));
}

TEST_CASE("the time of pumping may be dated, undated or told from the start") {
    const auto before_h = [](const std::string& line) {
        const Scenario scenario = read_smallest({}, "[preparation]\n" + line);
        return scenario.model().preparation.before_s / kHour_s;
    };
    CHECK(before_h("pumped = \"2026-06-14 06:05\"") == Approx(2.0));
    CHECK(before_h("pumped = \"2026-06-13 20:05\"") == Approx(12.0));
    CHECK(before_h("pumped = \"20:05\"") == Approx(12.0));
    CHECK(before_h("pumped = \"06:05\"") == Approx(2.0));
    CHECK(before_h("before = \"90 min\"") == Approx(1.5));
    CHECK(before_h("pump = \"stranger\"") == 0.0);
}

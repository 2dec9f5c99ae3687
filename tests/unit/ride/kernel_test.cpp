// The kernel's loops: same bits on every instruction set, laws of the road, no
// allocation.
#include "ride/kernel/kernel.h"

#include <cstring>
#include <vector>

#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"

using namespace flattail;

namespace {

constexpr std::uint64_t kFirstDay = 128;

support::Results ride_block(const scenario::Model& model, base::InstructionSet set,
                            ride::Solver solver, int setup = 1) {
    return support::ride_block(model, setup, solver, set, kFirstDay);
}

const base::InstructionSet kBest = base::detect_instruction_set();

double mean_time(const support::Results& results) {
    double sum = 0.0;
    for (const auto& result : results) sum += result.time_s;
    return sum / ride::kLanes;
}

double ride_mean(const scenario::Model& model) {
    return mean_time(ride_block(model, kBest, ride::Solver::kFast, 0));
}

bool are_same_bits(double a, double b) { return std::memcmp(&a, &b, sizeof a) == 0; }

}  // namespace

TEST_CASE("every instruction set gives the same ride to the bit") {
    const scenario::Model model = support::make_race_model(20000.0);
    for (const auto solver :
         {ride::Solver::kFast, ride::Solver::kSimple, ride::Solver::kConverged}) {
        const auto baseline = ride_block(model, base::InstructionSet::kBaseline, solver);
        for (const auto set : base::supported_instruction_sets()) {
            const auto other = ride_block(model, set, solver);
            for (std::size_t j = 0; j < ride::kLanes; ++j) {
                REQUIRE(are_same_bits(baseline[j].time_s, other[j].time_s));
                REQUIRE(baseline[j].flats == other[j].flats);
            }
        }
    }
}

TEST_CASE("a ride depends on no other lane of its block") {
    const scenario::Model model = support::make_race_model(20000.0);
    const support::PreparedRide prepared = support::prepare_ride(model);
    ride::BlockRider rider(prepared.plan());
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(0, days);
    support::Results before, after;
    rider.ride(days, 0, ride::Solver::kFast, before);
    // Every other lane gets another rider's power and loses its flats.
    double* power = days.values.data() +
                    static_cast<std::size_t>(model.rider.power_w.index) * ride::kLanes;
    for (std::size_t j = 1; j < ride::kLanes; j += 2) power[j] *= 0.6;
    std::erase_if(days.points, [](const auto& point) { return point.lane % 2 == 1; });
    rider.ride(days, 0, ride::Solver::kFast, after);
    for (std::size_t j = 0; j < ride::kLanes; j += 2) {
        REQUIRE(are_same_bits(before[j].time_s, after[j].time_s));
    }
    CHECK_FALSE(are_same_bits(before[1].time_s, after[1].time_s));
}

TEST_CASE("the fast path stays within .05 % of the converged ride on every lane") {
    for (const double power_w : {90.0, 200.0, 400.0}) {
        scenario::Model model = support::make_race_model(40000.0);
        support::fix_input(model, model.rider.power_w, power_w);
        const auto fast = ride_block(model, kBest, ride::Solver::kFast);
        const auto exact = ride_block(model, kBest, ride::Solver::kConverged);
        for (std::size_t j = 0; j < ride::kLanes; ++j) {
            if (fast[j].flats != exact[j].flats) continue;
            CHECK(fast[j].time_s == Approx(exact[j].time_s).epsilon(5e-4));
        }
    }
}

TEST_CASE("more power, less drag and less rolling are never slower") {
    const scenario::Model base = support::make_plain_model(10000.0);
    const double usual = ride_mean(base);
    scenario::Model stronger = base;
    support::fix_input(stronger, base.rider.power_w, 210.0);
    CHECK(ride_mean(stronger) < usual);
    scenario::Model slimmer = base;
    support::fix_input(slimmer, base.rider.drag_area_m2, 0.25);
    CHECK(ride_mean(slimmer) < usual);
    scenario::Model smoother = base;
    support::fix_input(smoother, base.road.crr[1], 0.0040);
    CHECK(ride_mean(smoother) < usual);
}

TEST_CASE("a heavier rider is never faster on a hilly loop without wind") {
    scenario::Model model = support::make_race_model(20000.0);
    model.weather.rows[0].wind_m_s = 0.0;
    const double usual = ride_mean(model);
    support::fix_input(model, model.rider.mass_kg, 75.0);
    CHECK(ride_mean(model) > usual);
}

TEST_CASE("no speed exceeds a stated limit") {
    scenario::Model model = support::make_plain_model(34000.0);
    model.race.speed_limit_m_s = 34.0 / 3.6;
    support::fix_input(model, model.rider.power_w, 500.0);
    const auto results = ride_block(model, kBest, ride::Solver::kFast, 0);
    for (const auto& result : results)
        CHECK(result.time_s == Approx(3600.0).epsilon(1e-9));
}

TEST_CASE("a rider without power on a wall walks, and the ride still ends") {
    scenario::Model model = support::make_plain_model(2000.0);
    support::fix_input(model, model.rider.power_w, 1.0);
    support::fix_input(model, model.rider.mass_kg, 150.0);
    model.weather.rows[0].wind_m_s = 25.0;
    const auto results = ride_block(model, kBest, ride::Solver::kFast, 0);
    for (const auto& result : results) {
        CHECK(result.time_s > 0.0);
        CHECK(result.time_s <= 2000.0 / 0.75 + 60.0);
    }
}

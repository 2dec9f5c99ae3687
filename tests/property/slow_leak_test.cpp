// Tubes that lose their air slowly: ridden until they feel soft, topped up, changed.
#include <cmath>

#include "physics/cartridge.h"
#include "physics/outflow.h"
#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"

using namespace flattail;

namespace {

constexpr double kNailM = 5000.0;
constexpr double kStartPa = 5e5;

scenario::Model make_model(double slow_share) {
    scenario::Model model = support::make_plain_model(60000.0);
    model.flats.slow_share = support::add_certain(model, "slow", slow_share);
    model.setups[0].kit.cartridge_kg.assign(2, 0.025);
    return model;
}

struct Told {
    ride::RideResult result;
    ride::RideTrace trace;

    const ride::TraceEvent* find(ride::TraceKind kind, int which = 0) const {
        for (const auto& event : trace.events) {
            if (event.kind == kind && which-- == 0) return &event;
        }
        return nullptr;
    }
};

Told ride_nails(const scenario::Model& model, std::vector<double> places_m) {
    const support::PreparedRide prepared = support::prepare_ride(model);
    ride::BlockRider rider(prepared.plan());
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(0, days);
    days.points.clear();
    for (const double place_m : places_m) {
        sampling::FlatPoint nail;
        nail.place_m = place_m;
        nail.height = 0.1;
        nail.wheel = 1;
        nail.key = static_cast<std::uint32_t>(days.points.size()) + 3;
        days.points.push_back(nail);
    }
    Told told;
    told.result = rider.trace(days, 0, 0, told.trace);
    return told;
}

double find_fall_s(double hole_m, double width_m) {
    physics::LeakingTube tube;
    tube.hole.diameter_m = hole_m;
    tube.volume_m3 = physics::compute_torus(width_m).volume_m3;
    return physics::compute_fall_time_s(tube, kStartPa + 101325.0, 2e5 + 101325.0);
}

double find_drawn_hole_m(const scenario::Model& model) {
    const support::PreparedRide prepared = support::prepare_ride(model);
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(0, days);
    sampling::FlatPoint nail;
    nail.wheel = 1;
    nail.key = 3;
    return ride::find_slow_hole_m(model, days, nail, 1, {});
}

}  // namespace

TEST_CASE("a slow leak is noticed when the outflow has brought the tyre to soft") {
    const scenario::Model model = make_model(1.0);
    const Told told = ride_nails(model, {kNailM});
    const ride::TraceEvent* hole = told.find(ride::TraceKind::kSlowLeak);
    const ride::TraceEvent* soft = told.find(ride::TraceKind::kSoft);
    REQUIRE(hole != nullptr);
    REQUIRE(soft != nullptr);
    CHECK(hole->place_m == Approx(kNailM));
    // Looked at from segment end to segment end, about 10 s apart, and after the air of
    // the day, 20 C give or take.
    const double fall_s = find_fall_s(find_drawn_hole_m(model), 0.028);
    CHECK(soft->time_s - hole->time_s == Approx(fall_s).margin(15.0));
    CHECK(told.result.flats == 1);
    CHECK(told.result.slow_leaks == 1);
    CHECK(told.result.flats_at_speed == 0);
}

TEST_CASE("a sudden flat in the same place stops the rider at once") {
    const Told told = ride_nails(make_model(0.0), {kNailM});
    CHECK(told.find(ride::TraceKind::kSlowLeak) == nullptr);
    const ride::TraceEvent* flat = told.find(ride::TraceKind::kFlat);
    REQUIRE(flat != nullptr);
    CHECK(flat->place_m == Approx(kNailM));
    CHECK(told.result.slow_leaks == 0);
}

TEST_CASE("with air to spare a slow leak is filled up, and the tube changed later") {
    scenario::Model model = make_model(1.0);
    model.setups[0].kit.tubes = 1;
    const Told told = ride_nails(model, {kNailM});
    const ride::TraceEvent* first = told.find(ride::TraceKind::kMended);
    REQUIRE(first != nullptr);
    CHECK(first->stop.means == ride::Means::kTopUp);
    const ride::TraceEvent* second = told.find(ride::TraceKind::kMended, 1);
    if (second != nullptr) CHECK(second->stop.means == ride::Means::kTube);
    CHECK(told.result.flats == 1);
    CHECK(told.result.ending == ride::Ending::kFinished);
}

TEST_CASE("a leak that the line hides is no flat, but soft tyres are slow") {
    const scenario::Model model = make_model(1.0);
    const Told without = ride_nails(model, {});
    const Told late = ride_nails(model, {59000.0});
    CHECK(late.result.flats == 0);
    CHECK(late.result.lost_s == 0.0F);
    CHECK(late.result.time_s > without.result.time_s);
    CHECK(late.result.time_s < without.result.time_s + 10.0);
}

TEST_CASE("a nail that no wheel meets moves no bit of the ride") {
    const scenario::Model model = make_model(1.0);
    const Told without = ride_nails(model, {});
    scenario::Model none = model;
    support::fix_input(none, none.inners[0].cut_ratio, 0.0);
    CHECK(ride_nails(none, {kNailM}).result.time_s == without.result.time_s);
}

TEST_CASE("a ride written down is the ride of its block, to the bit") {
    scenario::Model model = support::make_race_model(60000.0);
    model.flats.slow_share = support::add_certain(model, "slow", 0.5);
    support::fix_input(model, model.flats.training_per_m, 1.0 / 3e4);
    const support::PreparedRide prepared = support::prepare_ride(model);
    ride::BlockRider rider(prepared.plan());
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(64, days);
    support::Results results;
    rider.ride(days, 1, ride::Solver::kFast, results);
    int stopped = 0;
    for (int lane = 0; lane < ride::kLanes; ++lane) {
        ride::RideTrace trace;
        const ride::RideResult told = rider.trace(days, 1, lane, trace);
        const auto& row = results[static_cast<std::size_t>(lane)];
        REQUIRE(told.time_s == row.time_s);
        REQUIRE(told.ending == row.ending);
        REQUIRE(told.flats == row.flats);
        stopped += row.flats > 0 ? 1 : 0;
        double last_m = 0.0, last_s = 0.0;
        for (const ride::TracePoint& point : trace.points) {
            REQUIRE(point.place_m >= last_m);
            REQUIRE(point.time_s >= last_s);
            last_m = point.place_m;
            last_s = point.time_s;
        }
        if (row.ending == ride::Ending::kFinished) REQUIRE(last_s == row.time_s);
    }
    CHECK(stopped > 20);
}

TEST_CASE("a tube with its cartridge more never loses a finish, day by day") {
    scenario::Model few = support::make_race_model(30000.0);
    few.flats.slow_share = support::add_certain(few, "slow", 0.4);
    support::fix_input(few, few.flats.training_per_m, 1.0 / 2e4);
    support::fix_input(few, few.repair.first_try_fails, 0.3);
    support::fix_input(few, few.flats.pinch_share, 0.0);
    few.setups[0].kit.tubes = 1;
    few.setups[0].kit.cartridge_kg.assign(1, 0.025);
    scenario::Model many = few;
    many.setups[0].kit.tubes = 4;
    many.setups[0].kit.cartridge_kg.assign(4, 0.025);
    int saved = 0;
    for (std::uint64_t day = 0; day < 8 * ride::kLanes; day += ride::kLanes) {
        const auto set = base::detect_instruction_set();
        const auto less = support::ride_block(few, 0, ride::Solver::kFast, set, day);
        const auto more = support::ride_block(many, 0, ride::Solver::kFast, set, day);
        for (std::size_t j = 0; j < ride::kLanes; ++j) {
            const bool less_finishes = less[j].ending == ride::Ending::kFinished;
            const bool more_finishes = more[j].ending == ride::Ending::kFinished;
            REQUIRE((!less_finishes || more_finishes));
            saved += more_finishes && !less_finishes ? 1 : 0;
        }
    }
    CHECK(saved > 50);
}

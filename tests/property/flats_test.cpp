// Laws of flats that hold day by day, because the nails lie where they lie.
#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"

using namespace flattail;

namespace {

// Many flats, plenty of spares, and spares like the tubes they replace.
scenario::Model make_flat_model() {
    scenario::Model model = support::make_race_model(30000.0);
    support::fix_input(model, model.flats.training_per_m, 1.0 / 1e4);
    support::fix_input(model, model.inners[1].cut_ratio, 1.0);
    support::fix_input(model, model.inners[1].fitting_fault, 0.0);
    for (auto& setup : model.setups) {
        setup.kit.tubes = 60;
        setup.kit.cartridge_kg.assign(60, 0.025);
        setup.kit.spare_inner = -1;
    }
    return model;
}

support::Results ride_days(const scenario::Model& model, int setup,
                           std::uint64_t first_day) {
    return support::ride_block(model, setup, ride::Solver::kFast,
                               base::detect_instruction_set(), first_day);
}

}  // namespace

TEST_CASE(
    "a setup with half the hazard suffers a part of the other's flats, day by day") {
    scenario::Model model = make_flat_model();
    support::fix_input(model, model.inners[1].cut_ratio, 0.5);
    support::fix_input(model, model.flats.pinch_share, 0.0);
    int fewer = 0;
    for (std::uint64_t day = 0; day < 10 * ride::kLanes; day += ride::kLanes) {
        const support::Results whole = ride_days(model, 0, day),
                               half = ride_days(model, 1, day);
        for (std::size_t j = 0; j < ride::kLanes; ++j) {
            REQUIRE(half[j].flats <= whole[j].flats);
            fewer += half[j].flats < whole[j].flats ? 1 : 0;
        }
    }
    CHECK(fewer > 100);
}

TEST_CASE("more pressure never brings a flat that less pressure did not have") {
    scenario::Model model = make_flat_model();
    support::fix_input(model, model.flats.pinch_share, 1.0);
    model.setups[1] = model.setups[0];
    for (auto& wheel : model.setups[0].wheels) wheel.gauge_pa = 3.5e5;
    int fewer = 0;
    for (std::uint64_t day = 0; day < 4 * ride::kLanes; day += ride::kLanes) {
        const support::Results soft = ride_days(model, 0, day),
                               firm = ride_days(model, 1, day);
        for (std::size_t j = 0; j < ride::kLanes; ++j) {
            REQUIRE(firm[j].flats <= soft[j].flats);
            fewer += firm[j].flats < soft[j].flats ? 1 : 0;
        }
    }
    CHECK(fewer > 50);
}

TEST_CASE("more identical spares never lose a finish, day by day") {
    scenario::Model few = make_flat_model(), many = make_flat_model();
    for (auto& setup : few.setups) setup.kit.tubes = 1;
    for (auto& setup : many.setups) setup.kit.tubes = 3;
    int saved = 0;
    for (std::uint64_t day = 0; day < 4 * ride::kLanes; day += ride::kLanes) {
        const support::Results less = ride_days(few, 0, day),
                               more = ride_days(many, 0, day);
        for (std::size_t j = 0; j < ride::kLanes; ++j) {
            const bool less_finishes = less[j].ending == ride::Ending::kFinished;
            const bool more_finishes = more[j].ending == ride::Ending::kFinished;
            REQUIRE((!less_finishes || more_finishes));
            saved += more_finishes && !less_finishes ? 1 : 0;
        }
    }
    CHECK(saved > 50);
}

TEST_CASE("without hazard the ride is the ride without flats, to the bit") {
    scenario::Model none = make_flat_model();
    support::fix_input(none, none.flats.training_per_m, 0.0);
    const support::Results ridden = ride_days(none, 0, 0);
    const support::PreparedRide prepared = support::prepare_ride(none);
    ride::BlockRider rider(prepared.plan());
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(0, days);
    CHECK(days.points.empty());
    support::Results without;
    days.points.clear();
    rider.ride(days, 0, ride::Solver::kFast, without);
    for (std::size_t j = 0; j < ride::kLanes; ++j) {
        REQUIRE(ridden[j].time_s == without[j].time_s);
        REQUIRE(ridden[j].flats == 0);
    }
}

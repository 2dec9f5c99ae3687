// One stop on a flat road, apart from everything else: riding at steady speed, noticing,
// easing off, the repair, and getting under way again, against closed forms and adaptive
// Runge-Kutta.
#include <cmath>

#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"
#include "support/reference_ride.h"

using namespace flattail;

namespace {

constexpr double kCourseM = 12000.0;
constexpr double kFlatAtM = 5037.0;
constexpr double kNoticeS = 5.0, kRepairS = 300.0;
constexpr double kStoppingMS2 = 1.5;  // as the ride eases off on a flat tyre, METHOD 8.7

// The time of lane 0 with one rear cut at kFlatAtM; `flats` 0 rides past it.
double ride_with_flats(const scenario::Model& model, int flats) {
    const support::PreparedRide prepared = support::prepare_ride(model);
    ride::BlockRider rider(prepared.plan());
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(0, days);
    days.points.clear();
    if (flats > 0) {
        sampling::FlatPoint point;
        point.place_m = kFlatAtM;
        point.height = 0.5;
        point.wheel = 1;
        days.points.push_back(point);
    }
    support::Results results;
    rider.ride(days, 0, ride::Solver::kFast, results);
    REQUIRE(results[0].flats == flats);
    return results[0].time_s;
}

double expect_with_flat(const support::ReferenceRider& rider, double steady_s_per_m) {
    const double v = 1.0 / steady_s_per_m;
    const double rolled = v * kNoticeS + v * v / (2.0 * kStoppingMS2);
    const double left = kCourseM - kFlatAtM - rolled;
    return kFlatAtM / v + kNoticeS + v / kStoppingMS2 + kRepairS +
           support::start_reference(rider, left).time_s;
}

}  // namespace

TEST_CASE("a stop and a restart are within .05 s of closed forms and Runge-Kutta") {
    for (const double power_w : {120.0, 200.0, 350.0}) {
        scenario::Model model = support::make_plain_model(kCourseM);
        support::fix_input(model, model.rider.power_w, power_w);
        const double without = ride_with_flats(model, 0);
        const double with = ride_with_flats(model, 1);
        const double expected =
            expect_with_flat(support::make_reference_rider(model), without / kCourseM);
        CAPTURE(power_w, without, with, expected);
        CHECK(std::abs(with - expected) < 0.05);
        // The twin: a rider at full speed again at once would differ by seconds.
        CHECK(std::abs(with - (without + kNoticeS + kRepairS)) > 1.0);
    }
}

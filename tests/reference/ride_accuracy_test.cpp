// The segment scheme against adaptive Runge-Kutta (Boost.Odeint) over the same smoothed
// course.
#include <cmath>

#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"
#include "support/read_course.h"
#include "support/reference_ride.h"

namespace {

using namespace flattail;

struct Trial {
    std::string course;
    double power_w;
    double wind_m_s;
    scenario::StartKind start;
};

scenario::Model make_model(const Trial& trial) {
    scenario::Model model = support::make_plain_model(1000.0);
    model.course = support::read_course(trial.course);
    model.race.start = trial.start;
    model.weather.rows[0].wind_m_s = trial.wind_m_s;
    model.weather.rows[0].from_rad = 1.0;
    support::fix_input(model, model.rider.power_w, trial.power_w);
    return model;
}

double ride_once(const scenario::Model& model, ride::Solver solver) {
    return support::ride_block(model, 0, solver)[0].time_s;
}

double find_worst_ratio(const std::string& course, ride::Solver solver) {
    double worst = 0.0;
    for (const double power_w : {150.0, 250.0}) {
        for (const double wind_m_s : {0.0, 5.0}) {
            const Trial trial{course, power_w, wind_m_s, scenario::StartKind::kStanding};
            const scenario::Model model = make_model(trial);
            const double reference = support::ride_reference(
                *model.course, support::make_reference_rider(model), trial.start);
            worst = std::max(worst, std::abs(ride_once(model, solver) / reference - 1.0));
        }
    }
    return worst;
}

}  // namespace

TEST_CASE("a ride over rolling roads is within .01 % of adaptive Runge-Kutta") {
    CHECK(find_worst_ratio("scenarios/lakeside/course.gpx", ride::Solver::kFast) < 1e-4);
}

TEST_CASE("a ride over hills of 8 % is within .02 % of adaptive Runge-Kutta") {
    CHECK(find_worst_ratio("scenarios/hills/course.gpx", ride::Solver::kFast) < 2e-4);
    CHECK(find_worst_ratio("scenarios/crosswind/course.gpx", ride::Solver::kFast) < 2e-4);
}

TEST_CASE("a ride through corners is within .05 % of adaptive Runge-Kutta") {
    CHECK(find_worst_ratio("tests/support/terrain/jacksboro.gpx", ride::Solver::kFast) <
          5e-4);
    CHECK(find_worst_ratio("scenarios/wet-laps/course.gpx", ride::Solver::kFast) < 5e-4);
}

TEST_CASE("a standing start is within .05 s of adaptive Runge-Kutta") {
    for (const double power_w : {80.0, 200.0, 400.0}) {
        scenario::Model model = support::make_plain_model(2000.0);
        model.race.start = scenario::StartKind::kStanding;
        support::fix_input(model, model.rider.power_w, power_w);
        const double reference = support::ride_reference(
            *model.course, support::make_reference_rider(model), model.race.start);
        const double ridden = ride_once(model, ride::Solver::kFast);
        CAPTURE(power_w, reference, ridden);
        CHECK(std::abs(ridden - reference) < 0.05);
    }
}

TEST_CASE("the quick and the simple step agree with the converged one") {
    const Trial trial{"scenarios/hills/course.gpx", 200.0, 5.0,
                      scenario::StartKind::kStanding};
    const scenario::Model model = make_model(trial);
    const double converged = ride_once(model, ride::Solver::kConverged);
    CHECK(ride_once(model, ride::Solver::kFast) == Approx(converged).epsilon(2e-4));
    CHECK(ride_once(model, ride::Solver::kSimple) == Approx(converged).epsilon(5e-5));
}

// Drag by yaw, which acts once per mark, against adaptive Runge-Kutta in which it acts at
// every instant (Boost.Odeint).
#include <algorithm>
#include <cmath>

#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"
#include "support/read_course.h"
#include "support/reference_ride.h"

namespace {

using namespace flattail;

constexpr double kDegree = 3.14159265358979323846 / 180.0;

// Deep wheels: drag along the bicycle falls by a tenth up to 15 degrees, then rises.
const std::vector<physics::YawRow> kSails = {{0.0, 1.0},           {5 * kDegree, 0.97},
                                             {10 * kDegree, 0.93}, {15 * kDegree, 0.90},
                                             {20 * kDegree, 0.94}, {30 * kDegree, 1.05}};

struct Times {
    double ridden_s, reference_s, isotropic_s;
};

Times ride_windy(const std::string& course, double power_w, double wind_m_s,
                 double from_rad) {
    scenario::Model model = support::make_plain_model(1000.0);
    model.course = support::read_course(course);
    model.race.start = scenario::StartKind::kStanding;
    model.weather.rows[0].wind_m_s = wind_m_s;
    model.weather.rows[0].from_rad = from_rad;
    support::fix_input(model, model.rider.power_w, power_w);
    support::ReferenceRider rider = support::make_reference_rider(model);
    Times times{};
    times.isotropic_s = support::ride_reference(*model.course, rider, model.race.start);
    model.rider.drag_by_yaw = kSails;
    rider.drag_by_yaw = kSails;
    times.reference_s = support::ride_reference(*model.course, rider, model.race.start);
    times.ridden_s = support::ride_block(model, 0, ride::Solver::kFast)[0].time_s;
    return times;
}

}  // namespace

TEST_CASE("drag by yaw is within .1 % of a ride that feels it at every instant") {
    double worst = 0.0, matters = 0.0;
    for (const char* name :
         {"scenarios/lakeside/course.gpx", "scenarios/hills/course.gpx",
          "scenarios/crosswind/course.gpx"}) {
        for (const double power_w : {150.0, 250.0}) {
            for (const double from_rad : {0.3, 2.2}) {
                const Times t = ride_windy(name, power_w, 5.0, from_rad);
                CAPTURE(name, power_w, from_rad, t.ridden_s, t.reference_s,
                        t.isotropic_s);
                CHECK(t.ridden_s == Approx(t.reference_s).epsilon(1e-3));
                worst = std::max(worst, std::abs(t.ridden_s / t.reference_s - 1.0));
                matters =
                    std::max(matters, std::abs(t.isotropic_s / t.reference_s - 1.0));
            }
        }
    }
    // The twin: leaving yaw out is far outside that bound.
    CHECK(matters > 0.01);
    CHECK(worst < 0.1 * matters);
}

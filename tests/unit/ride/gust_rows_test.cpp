// Gusts that change with the hour.
#include <cstring>

#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"

using namespace flattail;

namespace {

// Rows at these clocks, alike but for their gusts.
scenario::Model make_gusty(const std::vector<std::pair<double, double>>& rows,
                           double most) {
    scenario::Model model = support::make_race_model(20000.0);
    model.weather.gust_ratio = most;
    const scenario::ForecastRow usual = model.weather.rows[0];
    model.weather.rows.clear();
    for (const auto& [clock_s, ratio] : rows) {
        scenario::ForecastRow row = usual;
        row.clock_s = clock_s;
        row.gust_ratio = ratio;
        model.weather.rows.push_back(row);
    }
    return model;
}

support::Results ride_first_block(const scenario::Model& model) {
    return support::ride_block(model, 0, ride::Solver::kConverged);
}

}  // namespace

TEST_CASE("a calm morning before a gusty evening is ridden like a day without gusts") {
    const double morning = 5 * 3600.0, noon = 20 * 3600.0, evening = 23 * 3600.0;
    const auto found =
        ride_first_block(make_gusty({{morning, 1.0}, {noon, 1.0}, {evening, 1.8}}, 1.8));
    const auto calm =
        ride_first_block(make_gusty({{morning, 1.0}, {noon, 1.0}, {evening, 1.0}}, 1.0));
    const auto gusty =
        ride_first_block(make_gusty({{morning, 1.8}, {noon, 1.8}, {evening, 1.8}}, 1.8));
    for (std::size_t lane = 0; lane < found.size(); ++lane) {
        CHECK(found[lane].time_s == Approx(calm[lane].time_s).epsilon(1e-12));
        // The twin: gusts all day are another ride.
        CHECK_FALSE(gusty[lane].time_s == Approx(calm[lane].time_s).epsilon(1e-7));
    }
}

TEST_CASE("the same gust in every hour is the gust of the whole day") {
    const auto by_hour =
        ride_first_block(make_gusty({{5 * 3600.0, 1.5}, {20 * 3600.0, 1.5}}, 1.5));
    scenario::Model once = make_gusty({{5 * 3600.0, 1.5}, {20 * 3600.0, 1.5}}, 1.5);
    for (auto& row : once.weather.rows) row.gust_ratio.reset();
    const auto all_day = ride_first_block(once);
    for (std::size_t lane = 0; lane < by_hour.size(); ++lane) {
        CHECK(by_hour[lane].time_s == Approx(all_day[lane].time_s).epsilon(1e-12));
    }
}

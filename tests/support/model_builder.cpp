#include "support/model_builder.h"

#include <cmath>

#include "chance/make_distribution.h"

namespace flattail::support {

namespace {

using scenario::Model;

std::shared_ptr<const course::Course> make_course(double length_m, double climb_m) {
    course::CourseRequest request;
    request.source = course::RawSketch{length_m, climb_m, 1};
    return std::make_shared<course::Course>(course::build_course(request));
}

void add_rider(Model& m) {
    m.rider.name = "Test Rider";
    m.rider.mass_kg = add_certain(m, "rider.mass", 70.0);
    m.rider.bicycle_kg = add_certain(m, "rider.bicycle", 9.5);
    m.rider.clothing_kg = add_certain(m, "rider.clothing", 3.0);
    m.rider.power_w = add_certain(m, "rider.power", 200.0);
    m.rider.bad_day_chance = add_certain(m, "rider.bad_day", 0.0);
    m.rider.bad_day_loss = add_certain(m, "rider.bad_day_loss", 0.1);
    m.rider.fade_per_h = add_certain(m, "rider.fade", 0.0);
    m.rider.drag_area_m2 = add_certain(m, "rider.drag_area", 0.27);
    m.rider.pacing = scenario::Pacing::kSteady;
    m.rider.power_variation_sd = 0.0;
}

void add_surroundings(Model& m) {
    scenario::ForecastRow row;
    row.clock_s = 8 * 3600.0;
    row.temperature_k = 298.15;
    m.weather.rows = {row};
    m.weather.gust_ratio = 1.0;
    m.weather.wind_factor = add_certain(m, "weather.wind", 1.0);
    m.weather.direction_error_rad = add_certain(m, "weather.from", 0.0);
    m.weather.temperature_error_k = add_certain(m, "weather.temperature", 0.0);
    m.weather.rain = add_certain(m, "weather.rain", 0.5);
    const double crr[] = {0.0038, 0.0045, 0.0060, 0.0110};
    const char* names[] = {"road.crr.smooth", "road.crr.ordinary", "road.crr.coarse",
                           "road.crr.cobbles"};
    for (std::size_t s = 0; s < m.road.crr.size(); ++s) {
        m.road.crr[s] = add_certain(m, names[s], crr[s]);
    }
    m.road.shelter_ratio = add_certain(m, "road.shelter", 1.0);
    m.road.wet_crr_ratio = add_certain(m, "road.wet_rolling", 1.0);
}

void add_flats(Model& m) {
    m.flats.training_per_m = add_certain(m, "flats.training", 0.0);
    m.flats.race_ratio = add_certain(m, "flats.race_factor", 1.0);
    m.flats.day_factor = add_certain(m, "flats.clumping", 1.0);
    m.flats.wet_ratio = add_certain(m, "flats.wet_factor", 1.7);
    m.flats.rear_share = add_certain(m, "flats.rear_share", 2.0 / 3.0);
    m.flats.pinch_share = add_certain(m, "flats.pinch_share", 0.0);
    m.preparation.gauge_error_pa = add_certain(m, "preparation.gauge", 0.0);
    m.repair.median_s = add_certain(m, "repair.median", 300.0);
    m.repair.rear_extra_s = 0.0;
    m.repair.first_try_fails = add_certain(m, "repair.first_try_fails", 0.0);
    m.repair.tyre_destroyed = add_certain(m, "repair.tyre_destroyed", 0.0);
    m.repair.help_reached = add_certain(m, "repair.help.chance", 0.0);
    m.repair.help_wait_s = add_certain(m, "repair.help.wait", 1500.0);
}

scenario::Inner make_inner(Model& m, const std::string& name, double crr_change) {
    scenario::Inner inner;
    inner.name = name;
    inner.crr_change = add_certain(m, "inner." + name + ".rolling", crr_change);
    inner.cut_ratio = add_certain(m, "inner." + name + ".cuts", 1.0);
    inner.fitting_fault = add_certain(m, "inner." + name + ".fitting", 0.0);
    return inner;
}

void add_setups(Model& m) {
    scenario::Tyre tyre;
    tyre.name = "race 28 mm";
    tyre.crr_change = add_certain(m, "tyre.race 28 mm.rolling", 0.0);
    tyre.cut_ratio = add_certain(m, "tyre.race 28 mm.cuts", 1.0);
    m.tyres = {tyre};
    m.inners = {make_inner(m, "butyl", 0.0), make_inner(m, "latex", -0.0005)};
    for (int inner = 0; inner < 2; ++inner) {
        scenario::Setup setup;
        setup.name = inner == 0 ? "Butyl" : "Latex";
        setup.wheels[0] = {0, inner, 5e5, {}, 1.0, 0.45};
        setup.wheels[1] = {0, inner, 5e5, {}, 1.0, 0.55};
        setup.kit.tubes = 2;
        setup.kit.cartridge_kg = {0.016, 0.016};
        setup.kit.spare_inner = 0;
        m.setups.push_back(setup);
    }
}

}  // namespace

InputId add_certain(Model& model, const std::string& name, double value) {
    Input input;
    input.name = name;
    input.knowledge = chance::make_point(value);
    model.inputs.push_back(input);
    return InputId{static_cast<int>(model.inputs.size()) - 1};
}

InputId add_unknown(Model& model, const std::string& name,
                    const Distribution& knowledge) {
    const InputId id = add_certain(model, name, 0.0);
    model.inputs.back().knowledge = knowledge;
    return id;
}

InputId add_lucky(Model& model, const std::string& name, double centre,
                  Deviation deviation, const Distribution& luck) {
    const InputId id = add_certain(model, name, centre);
    model.inputs.back().deviation = deviation;
    model.inputs.back().luck = luck;
    return id;
}

void fix_input(Model& model, InputId id, double value) {
    Input& input = model.inputs[static_cast<std::size_t>(id.index)];
    input.knowledge = chance::make_point(value);
    input.deviation = Deviation::kNone;
}

Model make_plain_model(double length_m) {
    Model m;
    m.file = "made in code";
    m.race.name = "Test course";
    m.race.start = scenario::StartKind::kRolling;
    add_rider(m);
    add_surroundings(m);
    add_flats(m);
    add_setups(m);
    m.course = make_course(length_m, 0.0);
    return m;
}

Model make_race_model(double length_m) {
    Model m = make_plain_model(length_m);
    m.course = make_course(length_m, length_m * 0.008);
    m.race.start = scenario::StartKind::kStanding;
    m.rider.pacing = scenario::Pacing::kTerrain;
    m.rider.power_variation_sd = 0.02;
    m.weather.rows[0].wind_m_s = 4.0;
    m.weather.rows[0].from_rad = 1.0;
    m.weather.rows[0].temperature_k = 289.15;
    m.weather.gust_ratio = 1.5;
    m.repair.rear_extra_s = 60.0;
    using namespace chance;
    const auto lucky = [&](InputId& id, const char* name, double centre, Deviation how,
                           const Distribution& luck) {
        id = add_lucky(m, name, centre, how, luck);
    };
    lucky(m.rider.power_w, "day.power", 200.0, Deviation::kMultiply,
          make_lognormal_median_spread(1.0, 1.035));
    lucky(m.weather.wind_factor, "day.wind", 1.0, Deviation::kMultiply,
          make_lognormal_median_spread(1.0, 1.25));
    lucky(m.weather.direction_error_rad, "day.from", 0.0, Deviation::kAdd,
          make_normal(0.0, 0.26));
    lucky(m.flats.day_factor, "day.clumping", 1.0, Deviation::kMultiply,
          make_gamma(1.0, 0.6));
    lucky(m.repair.day_factor, "day.repair", 1.0, Deviation::kMultiply,
          make_lognormal_median_spread(1.0, 1.5));
    m.rider.drag_area_m2 = add_unknown(m, "unknown.drag_area", make_normal(0.27, 0.02));
    m.flats.training_per_m = add_unknown(m, "unknown.training",
                                         make_lognormal_median_spread(1.0 / 2.5e6, 1.7));
    m.inners[1].cut_ratio =
        add_unknown(m, "unknown.latex_cuts", make_lognormal_median_spread(1.0, 1.37));
    m.inners[1].crr_change =
        add_unknown(m, "unknown.latex_rolling", make_normal(-0.0005, 0.00025));
    fix_input(m, m.flats.pinch_share, 0.12);
    fix_input(m, m.inners[1].fitting_fault, 0.008);
    fix_input(m, m.rider.bad_day_chance, 0.05);
    fix_input(m, m.rider.fade_per_h, 0.02);
    fix_input(m, m.repair.first_try_fails, 0.12);
    return m;
}

}  // namespace flattail::support

#include "scenario/rider/settle_rider.h"

#include <fmt/format.h>

#include <cmath>

#include "chance/distribution.h"
#include "chance/make_distribution.h"
#include "course/course.h"
#include "scenario/rider/course_ride.h"
#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

// What the unknown wind and roads of a past ride may do to the power that explains it,
// sd, share. Assumption: wind of 0 to 20 km/h at 10 m moves it by 6 % between the ends, a
// Crr within 15 % by 3 %. Larger: finish times spread more, differences hardly.
constexpr double kWindAndRoads = 0.04;
constexpr double kRoadsAlone = 0.03;  // the wind of that day is stated
// How well riders foresee their own split, as power; sd, share (assumption: 1.5 % of the
// time).
constexpr double kForesight = 0.04;

// What turned out, and how exactly.
struct Solved {
    double value = 0.0;
    double sd = 0.0;  // of its logarithm
    std::string why;
};

double find_middle(const Model& model, InputId id) {
    return chance::quantile(model.input(id).knowledge, 0.5);
}

Bracket find_limits(const Spec& spec) {
    return {to_si(spec.unit, spec.least), to_si(spec.unit, spec.most)};
}

// Roads of a past ride are taken as the sketch of a course with its distance and climb,
// ordinary and open, in standard air at 15 C; its wind as the usual one unless stated.
CourseRide remember(const Model& model, const PastRide& past) {
    const Spec& wind = find_spec("weather.wind");
    RideSetting setting;
    setting.body.mass_kg = find_middle(model, model.rider.mass_kg) +
                           find_middle(model, model.rider.bicycle_kg) +
                           find_middle(model, model.rider.clothing_kg);
    setting.body.efficiency = model.rider.drivetrain_efficiency;
    for (std::size_t s = 0; s < kSurfaces; ++s) {
        setting.crr[s] = find_middle(model, model.road.crr[s]);
    }
    setting.wind_m_s = past.wind_m_s.value_or(to_si(wind.unit, wind.usual.mid));
    setting.from_anywhere = true;
    if (!model.rider.drag_by_yaw.empty()) {
        setting.yaw = physics::make_yaw_drag(model.rider.drag_by_yaw);
    }
    if (model.rider.pacing == Pacing::kSteady) setting.pacing = physics::kSteadyPacing;
    course::CourseRequest request;
    request.source = course::RawSketch{past.distance_m, past.climb_m, 1};
    return {course::build_course(request), setting};
}

double find_road_sd(const PastRide& past) {
    return past.wind_m_s ? kRoadsAlone : kWindAndRoads;
}

std::string write_percent(double share) { return fmt::format("{:.2g} %", 100.0 * share); }

void put(Input& input, const Solved& solved, const Place& place) {
    input.knowledge =
        chance::make_lognormal_median_spread(solved.value, std::exp(solved.sd));
    input.origin = Origin::kFitted;
    input.source = solved.why;
    input.place = place;
}

Input& power_of(Model& model) {
    return model.inputs[static_cast<std::size_t>(model.rider.power_w.index)];
}

Input& drag_of(Model& model) {
    return model.inputs[static_cast<std::size_t>(model.rider.drag_area_m2.index)];
}

void refuse(Draft& draft, const KnownRide& known, const Spec& spec, const char* thing) {
    draft.problems.add_error(
        known.place,
        fmt::format("{} would mean a {} outside {} to {}",
                    known.past ? "rider.past_ride" : "rider.expected_split", thing,
                    write_value(spec.unit, to_si(spec.unit, spec.least)),
                    write_value(spec.unit, to_si(spec.unit, spec.most))),
        known.past ? "check its distance, time, climb and wind"
                   : "write hours:minutes:seconds for this course, like \"2:40:00\"");
}

// Relative change of power per relative change of drag area at the same time.
double find_drag_share(const CourseRide& ride, double time_s, double area_m2,
                       double power_w) {
    constexpr double kStep = 0.01;
    const auto moved = solve_power_w(ride, time_s, area_m2 * (1.0 + kStep),
                                     {0.9 * power_w, 1.1 * power_w});
    return moved ? std::log(*moved / power_w) / std::log1p(kStep) : 0.0;
}

// Power that explains a ride stands and falls with the drag area assumed for it, so both
// are drawn together: the sum of what the area moves and what is left.
void tie_to_drag(Draft& draft, double drag_share, Solved& solved) {
    Model& model = draft.model;
    const Distribution& area = drag_of(model).knowledge;
    // Rows of a file are drawn as they stand and cannot be tied to anything else.
    if (area.shape == Shape::kPoint || area.shape == Shape::kSamples) return;
    // Half the distance between the points one standard score below and above.
    constexpr double kBelow = 0.158655254, kAbove = 1.0 - kBelow;
    const double area_sd =
        0.5 * std::log(chance::quantile(area, kAbove) / chance::quantile(area, kBelow));
    const double moved = drag_share * area_sd;
    const double all = std::hypot(solved.sd, moved);
    const double together = moved / all;
    solved.sd = all;
    model.correlations.push_back({{model.rider.power_w, model.rider.drag_area_m2},
                                  Layer::kKnowledge,
                                  {1.0, together, together, 1.0}});
}

// A ride that takes some time at the area tells the power; what is left open is `sd`.
void settle_power(Draft& draft, const KnownRide& known, const CourseRide& ride,
                  double time_s, double area_m2, Solved solved) {
    const Spec& spec = find_spec("rider.power");
    const auto power = solve_power_w(ride, time_s, area_m2, find_limits(spec));
    if (!power) return refuse(draft, known, spec, "power");
    solved.value = *power;
    tie_to_drag(draft, find_drag_share(ride, time_s, area_m2, *power), solved);
    put(power_of(draft.model), solved, known.place);
}

void settle_power_by_past(Draft& draft, const KnownRide& known) {
    const PastRide& past = *known.past;
    const double area_m2 = past.position
                               ? make_drag_spec(*past.position).usual.mid
                               : find_middle(draft.model, draft.model.rider.drag_area_m2);
    const double road_sd = find_road_sd(past);
    const std::string why = fmt::format(
        "solved from a past ride, {}: off by sd {} for its wind and roads and {} for the "
        "form of that day; goes up and down with the drag area",
        past.text, write_percent(road_sd), write_percent(known.day_sd));
    settle_power(draft, known, remember(draft.model, past), past.time_s, area_m2,
                 {0.0, std::hypot(road_sd, known.day_sd), why});
}

void settle_power_by_split(Draft& draft, const KnownRide& known) {
    const Model& model = draft.model;
    const CourseRide ride(*model.course, describe_race(model, *known.split_s));
    const std::string why = fmt::format(
        "solved from the expected split {} on this course and forecast: off by sd {}; "
        "goes up and down with the drag area",
        known.split_text, write_percent(kForesight));
    settle_power(draft, known, ride, *known.split_s,
                 find_middle(model, model.rider.drag_area_m2), {0.0, kForesight, why});
}

// With its power known, the ride tells the drag area, and the race is ridden as hard.
void settle_drag_by_past(Draft& draft, const KnownRide& known,
                         const DragStatement& drag) {
    const Spec& spec = find_spec("rider.drag_area");
    const PastRide& past = *known.past;
    const CourseRide ride = remember(draft.model, past);
    const auto area =
        solve_drag_area_m2(ride, past.time_s, *past.power_w, find_limits(spec));
    if (!area) return refuse(draft, known, spec, "drag area");
    const double share = find_drag_share(ride, past.time_s, *area, *past.power_w);
    const double road_sd = find_road_sd(past);
    const double turned = past.position && drag.position
                              ? compute_position_ratio(*drag.position, *past.position)
                              : 1.0;
    put(drag_of(draft.model),
        {*area * turned, road_sd / share,
         fmt::format("solved from a past ride, {}: off by sd {} for its wind and roads",
                     past.text, write_percent(road_sd / share))},
        known.place);
    if (known.power_stated) return;
    put(power_of(draft.model),
        {*past.power_w, known.day_sd,
         fmt::format("as on a past ride, {}: off by sd {} for the form of that day",
                     past.text, write_percent(known.day_sd))},
        known.place);
}

}  // namespace

void settle_rider(Draft& draft, const KnownRide& known, const DragStatement& drag) {
    if (known.split_s) return settle_power_by_split(draft, known);
    if (!known.past) return;
    if (known.past->power_w) return settle_drag_by_past(draft, known, drag);
    settle_power_by_past(draft, known);
}

}  // namespace flattail::scenario

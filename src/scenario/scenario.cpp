// What a scenario tells about itself: values in use, setups, course.
#include "flattail/scenario.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "course/describe.h"
#include "scenario/model.h"
#include "scenario/values/spec.h"
#include "scenario/values/stated_value.h"

namespace flattail {

namespace {

using namespace scenario;

bool is_certain(const Input& input) {
    return input.deviation == Deviation::kNone && input.knowledge.shape == Shape::kPoint;
}

std::string name_kind(const Input& input) {
    if (is_certain(input)) return "certain";
    if (input.deviation == Deviation::kNone) return "not known";
    if (input.knowledge.shape == Shape::kPoint) return "changes each day";
    return "not known, and changes each day";
}

// Three digits are what a range of guesses is worth.
std::string write_briefly(double number) {
    const double size = std::abs(number);
    if (size >= 1000.0) return fmt::format("{:.0f}", number);
    return fmt::format("{:.3g}", size < 1e-12 ? 0.0 : number);
}

UsedValue describe_input(const Input& input) {
    const Unit unit{input.unit, input.unit_si, input.unit_zero};
    const Summary summary = summarise(input.knowledge, input.luck, input.deviation);
    UsedValue used;
    used.name = input.name;
    used.label = input.label;
    const auto write = [&](double value) { return write_briefly(from_si(unit, value)); };
    used.value = is_certain(input) ? write_value(unit, summary.mid)
                                   : fmt::format("{} {}", write(summary.mid), unit.name);
    if (used.value.back() == ' ') used.value.pop_back();
    if (!is_certain(input)) {
        used.range = fmt::format("{} to {}", write(summary.low), write(summary.high));
    }
    used.kind = name_kind(input);
    used.origin = input.origin;
    used.source = input.source;
    used.place = input.place;
    return used;
}

std::string describe_wheels(const Model& model, const Setup& setup) {
    const Wheel& front = setup.wheels[0];
    const Wheel& rear = setup.wheels[1];
    const auto tyre = [&](const Wheel& w) {
        return model.tyres[static_cast<std::size_t>(w.tyre)].name;
    };
    const auto inner = [&](const Wheel& w) {
        return model.inners[static_cast<std::size_t>(w.inner)].name;
    };
    const auto both = [](const std::string& a, const std::string& b) {
        return a == b ? a : a + " / " + b;
    };
    return fmt::format("{}, {}, {:.1f} / {:.1f} bar ({:.0f} / {:.0f} psi)",
                       both(tyre(front), tyre(rear)), both(inner(front), inner(rear)),
                       from_si(kBar, front.gauge_pa), from_si(kBar, rear.gauge_pa),
                       from_si(kPsi, front.gauge_pa), from_si(kPsi, rear.gauge_pa));
}

std::string describe_kit(const Kit& kit) {
    if (kit.mass_kg <= 0.0) return kit.text;
    return fmt::format("{} ({:.0f} g)", kit.text, 1000.0 * kit.mass_kg);
}

std::string write_km(double metres) { return fmt::format("{:.1f} km", metres / 1000.0); }

std::string name_headings(course::Headings headings) {
    switch (headings) {
        case course::Headings::kFromTrack:
            return "from the track";
        case course::Headings::kAssumedLoop:
            return "not known, taken as one round loop";
        case course::Headings::kAssumedOutAndBack:
            break;
    }
    return "not known, taken as out and back";
}

void add_surfaces(const course::CourseDescription& course,
                  std::vector<CourseLine>& lines) {
    for (std::size_t i = 0; i < course.surface_m.size(); ++i) {
        if (course.surface_m[i] <= 0.0) continue;
        lines.push_back({fmt::format("{} road", course::kSurfaceNames[i]),
                         write_km(course.surface_m[i])});
    }
}

std::string write_place(const course::Feature& feature) {
    return fmt::format("km {:.1f} to {:.1f}", feature.from_m / 1000.0,
                       feature.to_m / 1000.0);
}

}  // namespace

Scenario::Scenario(std::shared_ptr<const scenario::Model> model)
    : model_(std::move(model)) {}

const std::string& Scenario::name() const { return model_->race.name; }

const std::string& Scenario::fingerprint() const { return model_->fingerprint; }

const std::vector<Problem>& Scenario::warnings() const { return model_->warnings; }

double Scenario::course_length_m() const { return model_->course->length_m; }

std::vector<std::string> Scenario::setup_names() const {
    std::vector<std::string> names;
    for (const Setup& setup : model_->setups) names.push_back(setup.name);
    return names;
}

std::vector<UsedValue> Scenario::used_values() const {
    std::vector<UsedValue> used;
    for (const Input& input : model_->inputs) {
        // Only a level that the chance of rain is compared with.
        if (input.name == model_->input(model_->weather.rain).name) continue;
        if (is_certain(input) && input.origin == Origin::kStated) continue;
        used.push_back(describe_input(input));
    }
    used.insert(used.end(), model_->settings.begin(), model_->settings.end());
    std::stable_sort(
        used.begin(), used.end(),
        [](const UsedValue& a, const UsedValue& b) { return a.origin < b.origin; });
    return used;
}

std::vector<SetupLine> Scenario::setup_lines() const {
    std::vector<SetupLine> lines;
    for (const Setup& setup : model_->setups) {
        lines.push_back({setup.name, describe_wheels(*model_, setup),
                         describe_kit(setup.kit), setup.cautions});
    }
    return lines;
}

std::vector<CourseLine> Scenario::course_lines() const {
    const course::CourseDescription course = course::describe_course(*model_->course);
    std::vector<CourseLine> lines = {
        {"length", write_km(course.length_m)},
        {"length as recorded", write_km(course.raw_length_m)},
        {"ascent after smoothing", fmt::format("{:.0f} m", course.ascent_m)},
        {"ascent as recorded", fmt::format("{:.0f} m", course.ascent_raw_m)},
        {"directions", name_headings(course.headings)},
    };
    add_surfaces(course, lines);
    if (course.longest_descent.drop_m > 0.0) {
        lines.push_back(
            {"longest descent", fmt::format("{:.0f} m, {}", course.longest_descent.drop_m,
                                            write_place(course.longest_descent))});
    }
    lines.push_back({"corners to brake for", fmt::format("{}", course.corners.size())});
    for (const course::Stretch& stretch : course.stretches) {
        lines.push_back({stretch.name.empty() ? "stretch" : stretch.name,
                         fmt::format("km {:.1f} to {:.1f}", stretch.from_m / 1000.0,
                                     stretch.to_m / 1000.0)});
    }
    return lines;
}

std::string Scenario::course_table() const {
    std::string table =
        "from_km,to_km,ascent_m,descent_m,mean_slope_percent,steepest_slope_percent,"
        "corners,heading_deg,surface\r\n";
    for (const course::KilometreRow& row :
         course::describe_course(*model_->course).kilometres) {
        table += fmt::format("{:.3f},{:.3f},{:.1f},{:.1f},{:.2f},{:.2f},{},{:.0f},{}\r\n",
                             row.from_m / 1000.0, row.to_m / 1000.0, row.ascent_m,
                             row.descent_m, 100.0 * row.mean_slope,
                             100.0 * row.steepest_slope, row.corners, row.heading_deg,
                             course::kSurfaceNames[static_cast<std::size_t>(
                                 course::index_of(row.surface))]);
    }
    return table;
}

}  // namespace flattail

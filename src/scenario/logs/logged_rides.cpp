#include "scenario/logs/logged_rides.h"

#include <fmt/format.h>

#include <algorithm>

#include "course/describe.h"
#include "input/toml/node_values.h"

namespace flattail::scenario {

namespace {

using input::Node;

Spec make_cuts_spec(const Input& input) {
    Spec spec;
    spec.name = input.name;
    spec.label = input.label;
    spec.dimension = input::Dimension::kNumber;
    spec.least = 0;
    spec.most = 20;
    spec.advice = "write a factor like 1";
    spec.usual = {Form::kCertain, 1, 1, 1, Origin::kAssumption, "assumption"};
    return spec;
}

void take_cuts(Draft& draft, const Node& entry, const std::string& name) {
    for (const Inner& inner : draft.model.inners) {
        if (inner.name != name) continue;
        Input& input =
            draft.model.inputs[static_cast<std::size_t>(inner.cut_ratio.index)];
        // An [[inner]] that says so itself.
        if (input.origin == Origin::kStated) return;
        input = read_input_at(&entry, make_cuts_spec(input), draft.problems);
        return;
    }
    // Not on any wheel here; its numbers are still looked at.
    Input unused;
    unused.name = "flats.cuts." + entry.key;
    read_input_at(&entry, make_cuts_spec(unused), draft.problems);
}

struct Log {
    std::string file;
    Words inners, tyres, surfaces;
};

Words read_names(Table& table, const std::string& key) {
    Words names;
    const Node* list = table.find(key);
    if (!list) return names;
    if (!list->is(input::NodeKind::kArray)) {
        table.add_error(*list, "flats.log." + key + " is no list", "write [\"...\"]");
        return names;
    }
    for (const Node& item : list->items) {
        if (const auto name = input::read_text(item, table.problems())) {
            names.push_back(*name);
        }
    }
    return names;
}

bool has_name(const Words& names, const std::string& name) {
    return std::any_of(names.begin(), names.end(), [&](const std::string& known) {
        return fold_case(known) == fold_case(name);
    });
}

// "race 28 mm" is a race tyre; a tyre of the user's own is known by its whole name.
bool has_tyre(const Words& logged, const std::string& tyre) {
    return std::any_of(logged.begin(), logged.end(), [&](const std::string& known) {
        return fold_case(tyre).rfind(fold_case(known), 0) == 0;
    });
}

void warn(Draft& draft, const Log& log, const Place& place, const std::string& what,
          const std::string& hint) {
    draft.problems.add_warning(place, what + " in the log " + log.file, hint);
}

void compare_wheels(Draft& draft, const Log& log, const Place& place) {
    const Model& model = draft.model;
    for (const Setup& setup : model.setups) {
        for (const Wheel& wheel : setup.wheels) {
            const std::string& inner =
                model.inners[static_cast<std::size_t>(wheel.inner)].name;
            const std::string& tyre =
                model.tyres[static_cast<std::size_t>(wheel.tyre)].name;
            if (!log.inners.empty() && !has_name(log.inners, inner)) {
                warn(draft, log, place,
                     fmt::format("{}: no ride is on {}", setup.name, inner),
                     "its flats rest on the other inners; ride it and log it");
            }
            if (!log.tyres.empty() && !has_tyre(log.tyres, tyre)) {
                warn(draft, log, place,
                     fmt::format("{}: no ride is on the tyre {}", setup.name, tyre),
                     "its flats rest on the factor between tyres; ride it and log it");
            }
        }
    }
}

void compare_course(Draft& draft, const Log& log, const Place& place) {
    if (!draft.model.course || log.surfaces.empty()) return;
    const auto course = course::describe_course(*draft.model.course);
    // Less than this of a course decides nothing.
    constexpr double kNoticed = 0.05;
    for (std::size_t i = 0; i < course.surface_m.size(); ++i) {
        const std::string surface(course::kSurfaceNames[i]);
        if (course.surface_m[i] < kNoticed * course.length_m) continue;
        if (has_name(log.surfaces, surface)) continue;
        warn(draft, log, place,
             fmt::format("{:.0f} km of the course are {}, and no ride is",
                         course.surface_m[i] / 1000.0, surface),
             "flats there rest on the default for such roads");
    }
}

}  // namespace

void read_cuts_by_inner(Draft& draft, Table& flats, const Parts& parts) {
    const Node* cuts = flats.find("cuts");
    if (!cuts) return;
    if (!cuts->is(input::NodeKind::kTable)) {
        flats.add_error(*cuts, "flats.cuts is no table",
                        "write [flats.cuts], then latex = 1.2 or the like");
        return;
    }
    for (const Node& entry : cuts->items) {
        const auto name = parts.find_inner_name(entry.key);
        // A library may know inners that this scenario does not.
        const bool is_fitted = entry.find("fitted_to") != nullptr;
        if (name && *name == "butyl") {
            flats.add_error(entry, "flats.cuts: butyl is what others are compared with",
                            "write its rate as flats.training");
        } else if (name || is_fitted) {
            take_cuts(draft, entry, name.value_or(entry.key));
        } else {
            flats.add_error(
                entry, fmt::format("flats.cuts: no inner is called \"{}\"", entry.key),
                "write latex, TPU, tubeless or the name of an [[inner]]");
        }
    }
}

void compare_with_log(Draft& draft, Table& flats) {
    Table table = flats.find_table("log");
    if (!table.is_stated()) return;
    Log log;
    log.file = table.find_text("file").value_or("");
    log.inners = read_names(table, "inners");
    log.tyres = read_names(table, "tyres");
    log.surfaces = read_names(table, "surfaces");
    table.reject_unknown_keys();
    if (draft.problems.has_errors()) return;
    compare_wheels(draft, log, table.place());
    compare_course(draft, log, table.place());
}

}  // namespace flattail::scenario

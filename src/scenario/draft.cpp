#include "scenario/draft.h"

#include <algorithm>

#include "base/expects.h"
#include "input/toml/document.h"

namespace flattail::scenario {

namespace {

Input make_bare_input(const Spec& spec) {
    Input input;
    input.name = spec.name;
    input.label = spec.label;
    input.unit = spec.unit.name;
    input.unit_si = spec.unit.si;
    input.unit_zero = spec.unit.zero;
    input.origin = spec.usual.origin;
    input.source = spec.usual.source;
    return input;
}

}  // namespace

Input make_input(const Spec& spec, const StatedValue& value) {
    Input input = make_bare_input(spec);
    input.knowledge = value.knowledge;
    input.luck = value.luck;
    input.deviation = value.deviation;
    input.draw_name = value.draw_name;
    return input;
}

Input make_usual_input(const Spec& spec) {
    // What must be stated and is not has been reported; any number will do from here on.
    if (spec.usual.form == Form::kRequired) {
        return make_input(spec, make_stated_point(to_si(spec.unit, spec.least)));
    }
    return make_input(spec, make_usual_value(spec));
}

Input read_input_at(const input::Node* node, const Spec& spec,
                    base::ProblemList& problems) {
    if (!node) return make_usual_input(spec);
    const auto value = read_stated_value(*node, spec, problems);
    if (!value) return make_usual_input(spec);
    Input input = make_input(spec, *value);
    input.origin = Origin::kStated;
    input.source = value->file.empty() ? "stated" : "stated, the rows of " + value->file;
    input.place = node->place;
    if (const input::Node* fitted_to = node->find("fitted_to")) {
        input.origin = Origin::kFitted;
        input.source = fitted_to->text;
    }
    return input;
}

Input read_input(Table& table, const Spec& spec) {
    const std::string key = key_of(spec);
    const input::Node* node = table.find(key);
    if (!node && spec.usual.form == Form::kRequired) {
        table.problems().add_error(table.place(), spec.name + " is missing", spec.advice);
    }
    return read_input_at(node, spec, table.problems());
}

InputId add_input(Draft& draft, Input input) {
    std::vector<Input>& inputs = draft.model.inputs;
    const auto it = std::find_if(inputs.begin(), inputs.end(), [&](const Input& known) {
        return known.name == input.name;
    });
    const auto index = it - inputs.begin();
    if (it == inputs.end()) inputs.push_back(std::move(input));
    return {static_cast<int>(index)};
}

double take_setting(Draft& draft, Table& table, const Spec& spec) {
    const auto stated = table.find_value(spec);
    if (stated) return *stated;
    const double value_si = to_si(spec.unit, spec.usual.mid);
    note_default(draft, spec, value_si);
    return value_si;
}

void note_default(Draft& draft, const Spec& spec, double value_si) {
    note_choice(draft, spec.name, spec.label, write_value(spec.unit, value_si),
                spec.usual.origin, spec.usual.source);
}

void note_choice(Draft& draft, std::string name, std::string label, std::string value,
                 Origin origin, std::string source) {
    UsedValue used;
    used.name = std::move(name);
    used.label = std::move(label);
    used.value = std::move(value);
    used.kind = "certain";
    used.origin = origin;
    used.source = std::move(source);
    draft.model.settings.push_back(std::move(used));
}

}  // namespace flattail::scenario

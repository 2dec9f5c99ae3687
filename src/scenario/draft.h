// A scenario while it is being read: the model so far and the problems so far.
#pragma once

#include <string>
#include <vector>

#include "base/problem_list.h"
#include "scenario/model.h"
#include "scenario/values/spec.h"
#include "scenario/values/stated_value.h"
#include "scenario/values/table.h"

namespace flattail::scenario {

struct Draft {
    Model model;
    base::ProblemList problems;
    std::vector<std::string> not_owned;  // setups of the file that this rider has not
};

/// The input of a spec with its default, or with what the table states for its key.
Input make_usual_input(const Spec& spec);
Input read_input(Table& table, const Spec& spec);
/// The same for a value that stands at `node`; null means not stated.
Input read_input_at(const input::Node* node, const Spec& spec,
                    base::ProblemList& problems);
/// The same for a value made elsewhere.
Input make_input(const Spec& spec, const StatedValue& value);

/// Puts an input into the model; one that is already there by name is shared.
InputId add_input(Draft& draft, Input input);

inline InputId take_input(Draft& draft, Table& table, const Spec& spec) {
    return add_input(draft, read_input(table, spec));
}

/// A certain value in SI, from the table or by default; a default is noted for the list
/// of values in use.
double take_setting(Draft& draft, Table& table, const Spec& spec);

/// Notes a certain value that nobody stated.
void note_default(Draft& draft, const Spec& spec, double value_si);
/// The same for a choice in words.
void note_choice(Draft& draft, std::string name, std::string label, std::string value,
                 Origin origin, std::string source);

}  // namespace flattail::scenario

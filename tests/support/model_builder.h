// A scenario made in code, for tests of rooms behind the files: one rider, two setups,
// every value certain until a test says otherwise. Invented numbers.
#pragma once

#include "scenario/model.h"

namespace flattail::support {

/// Flat out-and-back road of `length_m`, still air, rolling start, no flats, steady
/// power.
scenario::Model make_plain_model(double length_m = 90000.0);

/// The same with hills, wind, luck, knowledge and flats as an ordinary race has them.
scenario::Model make_race_model(double length_m = 90000.0);

/// Adds a certain input and returns its id.
InputId add_certain(scenario::Model& model, const std::string& name, double value);

/// Adds an input with a distribution of knowledge.
InputId add_unknown(scenario::Model& model, const std::string& name,
                    const Distribution& knowledge);

/// Adds an input that luck moves about a certain centre.
InputId add_lucky(scenario::Model& model, const std::string& name, double centre,
                  Deviation deviation, const Distribution& luck);

/// Replaces the value of an input by a certain one.
void fix_input(scenario::Model& model, InputId id, double value);

}  // namespace flattail::support

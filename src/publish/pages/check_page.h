// What `check` shows: the scenario in words.
#pragma once

#include <string>
#include <vector>

#include "flattail/publish.h"
#include "flattail/scenario.h"

namespace flattail::publish {

/// Everything the page tells, taken from a scenario.
struct CheckFacts {
    std::string name;
    std::string fingerprint;
    std::vector<SetupLine> setups;
    std::vector<Problem> warnings;
    std::vector<UsedValue> values;
    std::vector<std::string> safety;
    std::vector<ValueWeight> weights;  // of values; may be empty
    std::string against;               // the setup that others are compared with
};

std::string lay_check_page(const CheckFacts& facts, const PageOptions& options);

/// The safety facts that apply: pressure limits, cartridges, sealant, descents.
std::vector<std::string> list_safety(const scenario::Model& model);

}  // namespace flattail::publish

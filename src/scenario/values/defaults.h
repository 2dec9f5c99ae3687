// Every value a scenario may leave out, with what is used then and where that comes from.
#pragma once

#include <string_view>
#include <vector>

#include "scenario/values/spec.h"

namespace flattail::scenario {

/// The spec with this name, "rider.mass". Precondition: it is in the table.
const Spec& find_spec(std::string_view name);

/// The whole table, in the order in which people read it.
const std::vector<Spec>& all_specs();

/// The spec with another default; numbers in its printed unit.
Spec with_usual(const Spec& spec, Form form, double low, double mid, double high);

/// The spec with another certain default.
inline Spec with_usual(const Spec& spec, double mid) {
    return with_usual(spec, Form::kCertain, mid, mid, mid);
}

}  // namespace flattail::scenario

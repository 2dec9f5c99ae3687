// The advised setup done a little otherwise: which pressures and kits are worth a look.
#pragma once

#include <string>
#include <vector>

#include "flattail/why.h"
#include "study/prepared.h"

namespace flattail::study {

struct Variant {
    Varied varied = Varied::kNothing;
    std::string words;
    scenario::Setup setup;
    std::string ruled_out;  // by the scenario's minimum kit
};

struct VariantList {
    bool has_limits = true;         // of both wheels
    std::vector<Variant> variants;  // the first one as it is
};

/// Both wheels 10 and 5 psi lower and higher, where tyre and rim allow it at the hottest
/// moment; then every kit of list_kit_trials, as heavy as it is.
VariantList list_variants(const Prepared& prepared, int setup);

}  // namespace flattail::study

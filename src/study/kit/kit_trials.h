// Kits with one thing less or one thing more.
#pragma once

#include <string>
#include <vector>

#include "scenario/model.h"

namespace flattail::study {

struct KitTrial {
    std::string item;
    int carried = 0;
    bool is_added = false;
    double weighs_kg = 0.0;
    scenario::Setup changed;  // the setup with the other kit, as heavy as before
};

/// Everything that a setup carries, once less; and what riders add most: a tube with a
/// cartridge, a cartridge, a boot, a plug for tubeless tyres.
std::vector<KitTrial> list_kit_trials(const scenario::Model& model,
                                      const scenario::Setup& setup);

}  // namespace flattail::study

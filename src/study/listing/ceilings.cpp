#include "study/listing/ceilings.h"

#include <fmt/format.h>

#include <optional>

namespace flattail::study {

namespace {

void apply_ceiling(const std::optional<double>& most, const Figure& chance,
                   const char* what, SetupFindings& setup) {
    if (!most || chance.value <= *most) return;
    setup.vetoed = true;
    setup.cautions.push_back(
        fmt::format("{} on {:.2g} race days in 100, over the {:.2g} "
                    "allowed",
                    what, 100.0 * chance.value, 100.0 * *most));
}

}  // namespace

void apply_ceilings(const scenario::Decision& decision, Findings& found) {
    for (SetupFindings& setup : found.setups) {
        apply_ceiling(decision.flats_at_speed_most, setup.flat_at_speed,
                      "a flat at speed", setup);
        apply_ceiling(decision.front_at_speed_most, setup.front_flat_at_speed,
                      "a front flat at speed", setup);
    }
}

std::vector<int> list_allowed(const Findings& found) {
    std::vector<int> allowed;
    for (std::size_t s = 0; s < found.setups.size(); ++s) {
        if (!found.setups[s].vetoed) allowed.push_back(static_cast<int>(s));
    }
    return allowed;
}

}  // namespace flattail::study

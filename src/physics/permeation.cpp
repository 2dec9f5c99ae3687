#include "physics/permeation.h"

#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

#include "base/expects.h"

namespace flattail::physics {
namespace {

struct RubberTable {
    PerGas permeability_barrer;  // at 25 C
    PerGas activation_j_mol;     // of permeation
};

// Oxygen: Robb 1968 (Ann NY Acad Sci). Natural rubber's other gases follow the
// permeability handbook, table 86-01: H2 100, O2 46, N2 17, CO2 260. Butyl's N2 and CO2,
// and all activation energies: van Amerongen via the Polymer Handbook, from memory. If an
// energy is wrong by 5 kJ/mol, a rate at 5 C is wrong by 16 %; an observed loss hides
// most of that.
constexpr RubberTable kNaturalRubber = {{24.0 * 17.0 / 46.0, 24.0, 24.0 * 260.0 / 46.0},
                                        {39e3, 33e3, 26e3}};
constexpr RubberTable kButyl = {{0.32, 1.4, 5.2}, {52e3, 45e3, 42e3}};

const RubberTable& find_table(WallMaterial material) {
    return material == WallMaterial::kNaturalRubber ? kNaturalRubber : kButyl;
}

double find_activation_k(WallMaterial material, std::size_t gas) {
    return find_table(material).activation_j_mol[gas] / kGasConstant;
}

double compute_arrhenius_factor(WallMaterial material, std::size_t gas,
                                double temperature_k) {
    FLATTAIL_EXPECTS(temperature_k > 0.0);
    return std::exp(-find_activation_k(material, gas) *
                    (1.0 / temperature_k - 1.0 / kPermeationReferenceTemperature));
}

double compute_air_loss_pa(const PerGas& rate_per_s, const ObservedLoss& seen) {
    const GasMix start = make_air(seen.start_gauge_pa + seen.ambient_pa);
    const GasMix outside = make_air(seen.ambient_pa);
    return sum_pressure_pa(start) - sum_pressure_pa(leak_through_wall(
                                        start, outside, rate_per_s, seen.duration_s));
}

PerGas scale(PerGas rates, double factor) {
    for (double& rate : rates) rate *= factor;
    return rates;
}

[[maybe_unused]] bool is_possible(const ObservedLoss& seen) {
    return seen.lost_pa >= 0.0 && seen.lost_pa < seen.start_gauge_pa &&
           seen.duration_s > 0.0;
}

}  // namespace

double compute_permeability(WallMaterial material, Gas gas, double temperature_k) {
    return find_table(material).permeability_barrer[index_of(gas)] * kBarrer *
           compute_arrhenius_factor(material, index_of(gas), temperature_k);
}

WallLeak make_wall_leak(const TubeWall& wall) {
    FLATTAIL_EXPECTS(wall.thickness_m > 0.0 && wall.section_radius_m > 0.0);
    constexpr double kReference = kPermeationReferenceTemperature;
    const double area_per_volume_per_m = 2.0 / wall.section_radius_m;
    WallLeak leak{wall.material, {}};
    for (const Gas gas : {Gas::kNitrogen, Gas::kOxygen, Gas::kCarbonDioxide}) {
        leak.rate_per_s[index_of(gas)] =
            compute_permeability(wall.material, gas, kReference) * area_per_volume_per_m *
            kGasConstant * kReference / wall.thickness_m;
    }
    return leak;
}

PerGas find_activation_temperatures_k(WallMaterial material) {
    PerGas activation_k{};
    for (std::size_t g = 0; g < kGasCount; ++g) {
        activation_k[g] = find_activation_k(material, g);
    }
    return activation_k;
}

PerGas compute_leak_rates_per_s(const WallLeak& leak, double temperature_k) {
    PerGas rates = leak.rate_per_s;
    for (std::size_t g = 0; g < kGasCount; ++g) {
        rates[g] *= compute_arrhenius_factor(leak.material, g, temperature_k) *
                    temperature_k / kPermeationReferenceTemperature;
    }
    return rates;
}

GasMix leak_through_wall(const GasMix& inside, const GasMix& outside,
                         const PerGas& rate_per_s, double duration_s) {
    FLATTAIL_EXPECTS(duration_s >= 0.0);
    GasMix later = inside;
    for (std::size_t g = 0; g < kGasCount; ++g) {
        const double excess_pa = inside.partial_pa[g] - outside.partial_pa[g];
        later.partial_pa[g] += excess_pa * std::expm1(-rate_per_s[g] * duration_s);
    }
    return later;
}

WallLeak scale_to_air_loss(const WallLeak& leak, const ObservedLoss& seen) {
    FLATTAIL_EXPECTS(is_possible(seen));
    const PerGas bare_per_s = compute_leak_rates_per_s(leak, seen.temperature_k);
    if (seen.lost_pa <= 0.0) return {leak.material, {}};
    const auto excess_pa = [&](double factor) {
        return compute_air_loss_pa(scale(bare_per_s, factor), seen) - seen.lost_pa;
    };
    double high = 1.0;
    while (excess_pa(high) < 0.0) high *= 2.0;
    std::uintmax_t tries = 200;
    const auto [left, right] = boost::math::tools::toms748_solve(
        excess_pa, 0.0, high, boost::math::tools::eps_tolerance<double>(48), tries);
    return {leak.material, scale(leak.rate_per_s, 0.5 * (left + right))};
}

WallLeak set_carbon_dioxide_loss(const WallLeak& leak, const ObservedLoss& seen) {
    FLATTAIL_EXPECTS(is_possible(seen));
    const GasMix start =
        make_pure(Gas::kCarbonDioxide, seen.start_gauge_pa + seen.ambient_pa);
    const GasMix outside = make_air(seen.ambient_pa);
    PerGas rates = compute_leak_rates_per_s(leak, seen.temperature_k);
    rates[index_of(Gas::kCarbonDioxide)] = 0.0;
    // Air creeps in meanwhile and hides a little of what the carbon dioxide loses.
    const GasMix later = leak_through_wall(start, outside, rates, seen.duration_s);
    const double gained_pa = sum_pressure_pa(later) - sum_pressure_pa(start);
    const double excess_pa = start[Gas::kCarbonDioxide] - outside[Gas::kCarbonDioxide];
    const double rate_per_s =
        -std::log1p(-(seen.lost_pa + gained_pa) / excess_pa) / seen.duration_s;

    WallLeak changed = leak;
    double& reference_per_s = changed.rate_per_s[index_of(Gas::kCarbonDioxide)];
    reference_per_s = 1.0;
    const double warming = compute_leak_rates_per_s(
        changed, seen.temperature_k)[index_of(Gas::kCarbonDioxide)];
    reference_per_s = rate_per_s / warming;
    return changed;
}

}  // namespace flattail::physics

#include "physics/air.h"

#include <cmath>

#include "base/expects.h"
#include "physics/constants.h"

namespace flattail::physics {
namespace {

// ISO 2533: sea level temperature (K), lapse (K/m), nominal earth radius (m), gas
// constant of dry air (J/(kg K)) and the exponent g0/(R lapse).
constexpr double kSeaLevelTemperature = 288.15;
constexpr double kLapse = 0.0065;
constexpr double kEarthRadius = 6356766.0;
constexpr double kStandardAirGasConstant = 287.05287;
constexpr double kPressureExponent = 5.25588;

}  // namespace

double compute_geopotential_height_m(double height_m) {
    return kEarthRadius * height_m / (kEarthRadius + height_m);
}

double compute_standard_temperature_k(double height_m) {
    FLATTAIL_EXPECTS(height_m >= -1000.0 && height_m <= 11000.0);
    return kSeaLevelTemperature - kLapse * compute_geopotential_height_m(height_m);
}

double compute_standard_pressure_pa(double height_m) {
    const double relative =
        compute_standard_temperature_k(height_m) / kSeaLevelTemperature;
    return kStandardPressure * std::pow(relative, kPressureExponent);
}

double compute_standard_density_kg_m3(double height_m) {
    return compute_standard_pressure_pa(height_m) /
           (kStandardAirGasConstant * compute_standard_temperature_k(height_m));
}

double compute_saturation_pressure_pa(double temperature_k) {
    constexpr double a = 1.2378847e-5;   // 1/K2
    constexpr double b = -1.9121316e-2;  // 1/K
    constexpr double c = 33.93711047;
    constexpr double d = -6.3431645e3;  // K
    return std::exp((a * temperature_k + b) * temperature_k + c + d / temperature_k);
}

double compute_air_density_kg_m3(const AirState& air) {
    FLATTAIL_EXPECTS(air.relative_humidity >= 0.0 && air.relative_humidity <= 1.0);
    const double vapour_pa =
        air.relative_humidity * compute_saturation_pressure_pa(air.temperature_k);
    const double dry_pa = air.pressure_pa - vapour_pa;
    return dry_pa / (kDryAirGasConstant * air.temperature_k) +
           vapour_pa / (kWaterVapourGasConstant * air.temperature_k);
}

double compute_density_ratio(double height_m, double reference_height_m) {
    return compute_standard_density_kg_m3(height_m) /
           compute_standard_density_kg_m3(reference_height_m);
}

}  // namespace flattail::physics

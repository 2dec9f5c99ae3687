#include "physics/wind.h"

#include <array>
#include <cctype>
#include <cmath>
#include <cstddef>
#include <string>

#include "base/expects.h"
#include "physics/constants.h"

namespace flattail::physics {

double find_roughness_length_m(Terrain terrain) {
    switch (terrain) {
        case Terrain::kSea:
            return 0.0002;
        case Terrain::kMudOrSnow:
            return 0.005;
        case Terrain::kGrass:
            return 0.03;
        case Terrain::kLowCrops:
            return 0.10;
        case Terrain::kHighCrops:
            return 0.25;
        case Terrain::kParkland:
            return 0.5;
    }
    return 0.03;
}

double compute_log_law_ratio(double height_m, double roughness_length_m,
                             double reference_height_m) {
    FLATTAIL_EXPECTS(roughness_length_m > 0.0 && reference_height_m > roughness_length_m);
    if (height_m <= roughness_length_m) return 0.0;
    return std::log(height_m / roughness_length_m) /
           std::log(reference_height_m / roughness_length_m);
}

std::optional<double> find_compass_bearing_rad(std::string_view word) {
    static constexpr std::array<std::string_view, 16> kPoints = {
        "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE",
        "S", "SSW", "SW", "WSW", "W", "WNW", "NW", "NNW"};
    std::string upper;
    for (const char letter : word) {
        upper += static_cast<char>(std::toupper(static_cast<unsigned char>(letter)));
    }
    for (std::size_t i = 0; i < kPoints.size(); ++i) {
        if (kPoints[i] == upper) return static_cast<double>(i) * kPi / 8.0;
    }
    return std::nullopt;
}

WindVector compute_wind_vector(double speed_m_s, double from_bearing_rad) {
    return {-speed_m_s * std::sin(from_bearing_rad),
            -speed_m_s * std::cos(from_bearing_rad)};
}

double compute_head_wind_m_s(const WindVector& wind, double heading_rad) {
    return -(wind.east_m_s * std::sin(heading_rad) +
             wind.north_m_s * std::cos(heading_rad));
}

double compute_cross_wind_m_s(const WindVector& wind, double heading_rad) {
    return wind.east_m_s * std::cos(heading_rad) - wind.north_m_s * std::sin(heading_rad);
}

double compute_yaw_rad(double speed_m_s, double head_wind_m_s, double cross_wind_m_s) {
    return std::atan2(std::abs(cross_wind_m_s), speed_m_s + head_wind_m_s);
}

}  // namespace flattail::physics

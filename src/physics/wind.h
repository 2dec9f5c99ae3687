// Wind as a rider meets it: down to rider height, and split along and across the travel.
//
// Bearings and headings are clockwise from north. A wind is named by where it comes FROM;
// a WindVector says where the air moves TO.
#pragma once

#include <optional>
#include <string_view>

namespace flattail::physics {

struct WindVector {
    double east_m_s = 0.0;
    double north_m_s = 0.0;
};

enum class Terrain { kSea, kMudOrSnow, kGrass, kLowCrops, kHighCrops, kParkland };

/// Roughness length of open country of one kind.
/// Source:  METHOD 2.1 (roughness classes as used in wind statistics)
double find_roughness_length_m(Terrain terrain);

/// Mean wind at one height as a share of the wind at the reference height (10 m, the
/// height of forecasts).
/// Range: zero at and below the roughness length, where the law
/// ends;
///          reference_height_m must lie above it
/// Source:  METHOD 2.1 (logarithmic wind profile, neutral air)
double compute_log_law_ratio(double height_m, double roughness_length_m,
                             double reference_height_m = 10.0);

/// Bearing of a compass word of one to three letters ("N", "sw", "WSW"), in [0, 2 pi).
/// Errors:  empty when the word is none of the 16 points
std::optional<double> find_compass_bearing_rad(std::string_view word);

/// Where the air moves when a wind of this speed comes from this bearing.
/// Source:  METHOD 2.2
WindVector compute_wind_vector(double speed_m_s, double from_bearing_rad);

/// Wind against the travel: positive is a head wind, negative a tail wind.
/// Source:  METHOD 2.3
double compute_head_wind_m_s(const WindVector& wind, double heading_rad);

/// Wind across the travel: positive pushes the rider to the right.
/// Source:  METHOD 2.3
double compute_cross_wind_m_s(const WindVector& wind, double heading_rad);

/// Angle between the travel and the air that meets the rider, in [0, pi].
/// Source:  METHOD 2.4
double compute_yaw_rad(double speed_m_s, double head_wind_m_s, double cross_wind_m_s);

}  // namespace flattail::physics

// What one setup brings into a block of race days, apart from the speeds: everything that
// the marks need to bring power, wind, air and tyres up to the lane's own clock and
// place.
#pragma once

#include "ride/kernel/lane_block.h"

namespace flattail::ride {

/// Nitrogen, oxygen, carbon dioxide: physics::Gas in its order.
constexpr int kGases = 3;

/// Hours of forecast that can matter in one race, and a few to spare.
constexpr int kMostHinges = 64;

/// Forecast values as straight lines between rows: value = first + sum of bend x max(0, t
/// - hinge). Before the first and after the last row the value stays.
struct ForecastCurve {
    double first = 0.0;
    double bend[kMostHinges] = {};  // per second
};

/// The forecast over the local clock, at 10 m. Wind is a vector from where it blows
/// (east, north), so that a turning wind passes through the directions between.
struct Forecast {
    int hinges = 0;
    double clock_s[kMostHinges] = {};
    ForecastCurve wind_x, wind_y, temperature_k, rain_chance;
    bool gusts_vary = false;
    ForecastCurve gust;  // strength of gusts / that of the gustiest hour
};

/// What is the same for all 64 days and this setup.
struct RefreshTerms {
    const Forecast* forecast = nullptr;
    double start_clock_s = 0.0;  // of a typical day; the lane's own is in its terms
    double fade_from_s = 0.0;
    double temperature_slope = 0.0;  // of rolling resistance, per K
    double temperature_low_k = 0.0;  // outside these two the law is held
    double temperature_high_k = 0.0;
    double reference_temperature_k = 298.15;
    double air_pressure_pa = 101325.0;
    double outside_pa[kGases] = {};  // partial pressures of the air
    double softest_gauge_pa =
        1.5e5;  // below it the wheel counts as flat; the laws stop there
    double hysteresis_exponent = 0.0;  // a of METHOD 4.4
    double roughness_exponent = 0.0;   // b of METHOD 4.4
    double wet_cap_ratio = 1.0;
};

/// K, the temperature of the leak rates (METHOD 5.3).
constexpr double kLeakReferenceK = 298.15;

/// Per lane. But for the last part set before the start and after a repair; the gases
/// leak on from mark to mark.
struct alignas(64) LaneTerms {
    // The day, the same for all setups:
    double start_clock_s[kLanes];  // local clock at which the ride begins
    double power_w[kLanes];        // at the wheel, bad day included
    double fade_per_s[kLanes];
    double wind_east[kLanes],
        wind_north[kLanes];  // forecast wind -> the day's wind: a rotation
                             // and a factor, as a complex number
    double temperature_error_k[kLanes];
    double rain_level[kLanes];   // wet while the chance of rain exceeds it
    double wet_rolling[kLanes];  // rolling when wet / when dry
    // The setup:
    double inverse_mass[kLanes];  // 1 / 2 m_e
    double drag_k[kLanes];  // rho CdA / 4 m_e times temperature: divided by it at marks
    // What the tyres hold: partial pressures, absolute, as they would be at `gas_k`.
    double gas_k[kLanes];
    double gas_pa[kWheelCount][kGases][kLanes];
    double leak_per_s[kWheelCount][kGases][kLanes];    // at kLeakReferenceK
    double activation_k[kWheelCount][kGases][kLanes];  // E / R of METHOD 5.3
    double leak_clock_s[kLanes];  // after the start; the gases are followed up to here
    // Rates at the temperature `leak_at_k` (0: yet to be worked out), and how fast all
    // that a tyre holds changes, at gas_k.
    double leak_now_per_s[kWheelCount][kGases][kLanes];
    double leak_at_k[kLanes];
    double change_pa_s[kWheelCount][kLanes];
    // From a refreshing of the pressure to the middle of the stretch that it stands for.
    double half_way_s[kLanes];
    double reference_pa[kWheelCount][kLanes];  // gauge pressure at which Crr holds
    double hysteresis[kWheelCount][kLanes];    // load share x Crr lost in the tyre itself
    double roughness[kWheelCount][kSurfaceClasses]
                    [kLanes];  // load share x Crr lost to the road
    // Brought up to date at pressure marks:
    double hysteresis_now[kLanes];
    double roughness_now[kSurfaceClasses][kLanes];
    double gauge_pa[kWheelCount][kLanes];
    double wet[kLanes];  // 1 while the road is wet, else 0
};

/// Bends of drag over the tangent of the yaw; enough for a table up to 60 degrees.
constexpr int kMostYawHinges = 64;
struct YawTerms {
    int hinges = 0;
    double first = 1.0;
    double tangent[kMostYawHinges] = {};
    double bend[kMostYawHinges] = {};
    double typical_ratio = 1.0;  // power / half rho CdA of the typical rider
};

/// Road of about one direction and one pace between two marks.
struct YawSector {
    double length_m = 0.0;
    double head_x = 0.0, head_y = 0.0;  // mean of heading times shelter
    double shelter_sq = 0.0;
    double speed_m_s = 0.0;      // of the typical rider
    double head_wind_m_s = 0.0;  // that he meets
};

struct YawStretch {
    const YawTerms* terms = nullptr;  // null: drag does not change with yaw
    const YawSector* sectors = nullptr;
    int count = 0;
};

/// Slow variation and gusts at one mark: factors of the place, the same for all setups.
struct PlaceFactors {
    const double* power;  // [lane]
    const double* wind;   // [lane]
    YawStretch yaw = {};
};

/// Lanes from `begin` up to, not including, `end`.
struct LaneRange {
    int begin = 0;
    int end = kLanes;
};

}  // namespace flattail::ride

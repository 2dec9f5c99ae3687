// Sixty-four race days: every input's value, the places where something sharp lies in
// wait, and what each day counts. All setups meet the same days.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "flattail/uncertain.h"
#include "sampling/address.h"

namespace flattail::sampling {

constexpr int kWheels = 2;

enum class FlatCause : std::uint8_t { kCut = 0, kPinch = 1, kFitting = 2 };
constexpr int kCauses = 3;

/// A fixed point of one day: something that makes a wheel go flat if the wheel's hazard
/// there, over the reference hazard, exceeds its height. A setup with less hazard
/// therefore suffers a subset of another's flats, nail by nail (thinning, Lewis & Shedler
/// 1979; METHOD 9.5).
struct FlatPoint {
    double place_m = 0.0;
    double height = 0.0;
    std::uint8_t lane = 0;
    std::uint8_t wheel = 0;
    FlatCause cause = FlatCause::kCut;
    std::uint32_t key = 0;  // address of the repair's own draws
};

/// Groups of days by how their number of points was drawn; variances are taken within
/// them.
constexpr int kGroups = 5;  // as it comes; exactly 0, 1, 2; 3 or more
enum class DayGroup : std::uint8_t { kPlain = 0, kNone, kOne, kTwo, kMore };

struct DayBlock {
    std::uint64_t first_day = 0;
    std::vector<double> values;            // [input * kLanes + lane], SI
    std::vector<double> power_factor;      // [mark * kLanes + lane]
    std::vector<double> wind_factor;       // [mark * kLanes + lane]
    std::array<double, kLanes> bad_day{};  // 1 on a bad day, else 0
    std::array<double, kLanes> weight{};
    std::array<DayGroup, kLanes> group{};
    std::vector<FlatPoint> points;  // by lane, then place

    const double* of(InputId id) const {
        return values.data() + static_cast<std::size_t>(id.index) * kLanes;
    }
};

}  // namespace flattail::sampling

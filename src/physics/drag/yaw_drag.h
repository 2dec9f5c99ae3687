// How the drag area changes with the angle of the air.
#pragma once

#include <vector>

namespace flattail::physics {

/// What a balance along the bicycle reads at this yaw / at no yaw, at the same air speed.
struct YawRow {
    double yaw_rad = 0.0;
    double factor = 1.0;
};

/// Yaw up to which a table may go: beyond, a rider barely moves against the air.
constexpr double kLargestYaw_rad = 1.0472;  // 60 deg

/// Drag along the bicycle / that of a drag area that is the same from all sides, over the
/// tangent of the yaw: straight lines that bend at `tangent`, held after the last.
struct YawDrag {
    double first = 1.0;
    std::vector<double> tangent;
    std::vector<double> bend;
};

/// Range:   rows by rising yaw from 0 to kLargestYaw_rad, factors above zero
/// Accuracy: within .0003 of straight lines over the yaw between the rows
/// Source:  METHOD 3.8
YawDrag make_yaw_drag(const std::vector<YawRow>& rows);

/// The ratio where the air comes with `along_m_s` against the travel and `across_m_s`
/// from the side.
double find_yaw_ratio(const YawDrag& drag, double along_m_s, double across_m_s);

}  // namespace flattail::physics

// Tyre pressures from the pump to the finish on many days, by the code of the rides.
#pragma once

#include <array>
#include <vector>

#include "study/prepared.h"

namespace flattail::study {

/// Gauge pressures of both wheels at some times, sorted over the days.
/// Shapes: sorted_pa[time][wheel][day]
struct PressureTrace {
    std::vector<std::array<std::vector<double>, 2>> sorted_pa;

    /// The share `u` of days lies below.
    double read_pa(std::size_t time, std::size_t wheel, double u) const;
};

/// Times are told from the start of a typical day, the first is the pumping; those before
/// the start are stretched to each day's own wait.
/// Range:   times rise; half of the wait is among them where there is one
PressureTrace trace_pressures(const Prepared& prepared, const scenario::Setup& setup,
                              const std::vector<double>& times_s);

/// Median time of a ride without flats.
double find_typical_ride_s(const Prepared& prepared, int setup);

}  // namespace flattail::study

// The same ride in NumPy, in a process of its own.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "bench/bare_ride.h"

namespace flattail::bench {

/// Road and race days as tables that numpy_ride.py reads. 17 digits: no bit is lost.
void write_numpy_tables(const BareRide& bare, const std::filesystem::path& folder);

struct NumpyRide {
    int width = 0;  // days at once, the fastest of those tried
    double cpu_s = 0.0;
    std::vector<double> times_s;
};

/// One run; nothing when this Python has no NumPy.
std::optional<NumpyRide> run_numpy(const std::string& python,
                                   const std::filesystem::path& folder);

}  // namespace flattail::bench

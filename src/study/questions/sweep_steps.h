// "rider.power=150 W..250 W:5" as values of a scenario.
#pragma once

#include <string>
#include <vector>

namespace flattail::study {

struct SweepStep {
    std::string value;  // "175 W"
    double number = 0.0;
};

struct SweepSteps {
    std::string key;
    std::string unit;
    std::vector<SweepStep> steps;  // at least two
};

/// Reads KEY=FROM..TO[:STEPS]. The unit may stand at either end or at both, and is then
/// the same.
/// Errors:  InvalidInput naming --over
SweepSteps read_sweep(const std::string& over);

/// The place of problems that --over causes.
inline constexpr const char* kOverPlace = "--over";

}  // namespace flattail::study

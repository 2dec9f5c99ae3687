// The same study at several values of one thing: power from 150 W to 250 W, say.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/publish.h"
#include "flattail/scenario.h"
#include "flattail/study.h"

namespace flattail {

/// One value on the way and what was found there.
struct SweepPoint {
    std::string value;    // as a file would say it: "175 W"
    double number = 0.0;  // 175
    Findings findings;
};

/// The whole way, in order.
struct SweepFindings {
    std::string key;   // "rider.power"
    std::string unit;  // "W"; empty for plain numbers
    std::vector<SweepPoint> points;
    bool stopped_early = false;  // points are missing
};

/// Reads the scenario once per value and rides the same study of each: the seed is the
/// same, so every value meets the same race days.
/// `over` is KEY=FROM..TO or KEY=FROM..TO:STEPS, "rider.power=150 W..250 W:5"; values lie
/// evenly, both ends among them. KEY is what `--set` takes; 5 values unless told.
/// Errors:   InvalidInput naming --over when it cannot be read or a value is refused,
///           before anything is ridden; then as run_study
/// Accuracy: the same bits for any thread count and instruction set
SweepFindings run_sweep(const ScenarioSource& source, const std::string& over,
                        const StudyOptions& options);

/// The sweep as a table for the terminal: one line per value.
std::string write_sweep_page(const SweepFindings& sweep, const PageOptions& options = {});

/// Writes sweep.csv: a row per value and setup.
/// Errors: as write_tables
void write_sweep_table(const SweepFindings& sweep, const std::string& directory);

}  // namespace flattail

// Rolling tests as they stand in a spreadsheet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem_list.h"
#include "flattail/problem.h"
#include "physics/rolling.h"

namespace flattail::evidence {

enum class TestMethod { kDrum, kRoad, kTrack };

/// One row, in SI; what a cell left open holds nothing.
struct TestRow {
    Place place;
    std::string source;
    bool by_maker = false;
    std::string product;
    TestMethod method = TestMethod::kDrum;
    std::optional<physics::Surface> surface;
    std::string tyre;
    std::optional<double> width_m;
    std::optional<double> speed_m_s;
    std::optional<double> load_kg;  // on the tyre, or on both of a pair
    std::optional<double> pressure_pa;
    std::optional<double> temperature_k;
    std::optional<double> drum_diameter_m;
    std::optional<double> power_w;  // of the tyre, or of the pair
    std::optional<double> crr;
    std::optional<double> spread;  // sd of one run, in W or as a coefficient
    double runs = 1.0;
    bool is_dropped = false;  // the user wrote `no` under `use`
};

/// Reads the file. Cells that make no sense are problems; cells that are only missing are
/// not, since a row that cannot be converted is left out with its reason.
/// `asked_at` is where a scenario names the file.
std::vector<TestRow> read_rolling_tests(const std::string& path,
                                        base::ProblemList& problems,
                                        const Place& asked_at = {});
/// The same for a text in memory.
std::vector<TestRow> read_rolling_tests_text(std::string text, const std::string& name,
                                             base::ProblemList& problems);

}  // namespace flattail::evidence

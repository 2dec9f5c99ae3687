// A scenario: one rider, one course, one day and the wheel setups to choose from.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "flattail/problem.h"
#include "flattail/uncertain.h"

namespace flattail {

namespace scenario {
struct Model;
}

/// Where a scenario comes from: a TOML file, and settings of the form "rider.power=240 W"
/// that replace or add values as if the file had said so.
/// With `text` the file is not read: the text stands for it, and files it points at are
/// looked for beside `path`.
struct ScenarioSource {
    std::string path;
    std::vector<std::string> settings;
    std::optional<std::string> text = std::nullopt;
};

/// One value the scenario uses, as `flattail check` lists it.
struct UsedValue {
    std::string name;   // "rider.drag_area"
    std::string label;  // "drag area"
    std::string value;  // "0.27 m2"
    std::string range;  // "0.24 to 0.30", 9 in 10; empty when certain
    std::string kind;   // "changes each day", "not known", or "certain"
    Origin origin = Origin::kStated;
    std::string source;  // words for the origin
    Place place;
};

/// A setup in one line of words.
struct SetupLine {
    std::string name;
    std::string wheels;  // "race 28 mm, latex, 4.7 / 4.9 bar (68 / 71 psi)"
    std::string kit;
    std::vector<std::string> cautions;
};

/// The course as the program understood it.
struct CourseLine {
    std::string label;  // "ascent after smoothing"
    std::string value;  // "423 m"
};

/// A validated scenario. Cheap to copy; never changes.
class Scenario {
  public:
    explicit Scenario(std::shared_ptr<const scenario::Model> model);

    const std::string& name() const;
    const std::string& fingerprint() const;
    /// Doubts that do not stop a study: gaps in the course, limits not stated.
    const std::vector<Problem>& warnings() const;
    std::vector<std::string> setup_names() const;
    double course_length_m() const;
    /// Every uncertain or defaulted value in use.
    std::vector<UsedValue> used_values() const;
    std::vector<SetupLine> setup_lines() const;
    std::vector<CourseLine> course_lines() const;
    /// Kilometre by kilometre: CSV text with units in the header (RFC 4180).
    std::string course_table() const;

    const scenario::Model& model() const { return *model_; }

  private:
    std::shared_ptr<const scenario::Model> model_;
};

/// Reads and validates a scenario with all files it points at.
/// Errors: InvalidInput with every problem of the stage that failed.
Scenario read_scenario(const ScenarioSource& source);

}  // namespace flattail

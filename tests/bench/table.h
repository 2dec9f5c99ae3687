// The one table that the benchmark prints: what was measured, what is aimed at, and what
// both sides of a ratio took.
#pragma once

#include <string>

namespace flattail::bench {

enum class Aim { kAtLeast, kAtMost, kNear, kNone };

/// One line. `unit` follows measured value and target; `tolerance` belongs to kNear.
struct Row {
    std::string what;
    double measured = 0.0;
    std::string unit;
    Aim aim = Aim::kNone;
    double target = 0.0;
    double tolerance = 0.0;
    std::string beside;  // the two sides, or where the figure comes from
};

bool is_met(const Row& row);

/// The names of the columns.
void print_heading();

/// A heading over the rows that follow.
void print_group(const std::string& title);

/// Prints at once: a long benchmark shows what it has.
void print_row(const Row& row);

/// A line that is no figure: why a row is missing, or how results agree.
void print_note(const std::string& text);

}  // namespace flattail::bench

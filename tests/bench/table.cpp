#include "bench/table.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdio>

namespace flattail::bench {

namespace {

// Three figures that matter, without an exponent.
std::string write_number(double value) {
    const double size = std::abs(value);
    if (size >= 100.0) return fmt::format("{:.0f}", value);
    if (size >= 10.0) return fmt::format("{:.1f}", value);
    return fmt::format("{:.2f}", value);
}

std::string write_target(const Row& row) {
    switch (row.aim) {
        case Aim::kAtLeast:
            return fmt::format(">= {:g}{}", row.target, row.unit);
        case Aim::kAtMost:
            return fmt::format("<= {:g}{}", row.target, row.unit);
        case Aim::kNear:
            return fmt::format("{:.2f} +- {:g}", row.target, row.tolerance);
        case Aim::kNone:
            break;
    }
    return "";
}

std::string write_outcome(const Row& row) {
    if (row.aim == Aim::kNone) return "";
    return is_met(row) ? "met" : "MISSED";
}

}  // namespace

bool is_met(const Row& row) {
    switch (row.aim) {
        case Aim::kAtLeast:
            return row.measured >= row.target;
        case Aim::kAtMost:
            return row.measured <= row.target;
        case Aim::kNear:
            return std::abs(row.measured - row.target) <= row.tolerance;
        case Aim::kNone:
            break;
    }
    return true;
}

void print_heading() {
    fmt::print("  {:<46} {:>9} {:>13} {:<7} {}\n", "", "measured", "target", "",
               "both sides, or where it comes from");
}

void print_group(const std::string& title) {
    fmt::print("\n{}\n", title);
    std::fflush(stdout);
}

void print_row(const Row& row) {
    fmt::print("  {:<46} {:>9} {:>13} {:<7} {}\n", row.what,
               write_number(row.measured) + row.unit, write_target(row),
               write_outcome(row), row.beside);
    std::fflush(stdout);
}

void print_note(const std::string& text) {
    fmt::print("  {}\n", text);
    std::fflush(stdout);
}

}  // namespace flattail::bench

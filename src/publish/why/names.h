// Words and numbers that the page, the tables and the sentences of `why` share.
#pragma once

#include <string>

#include "flattail/why.h"

namespace flattail::publish {

/// Two-sided 95 % factor of the normal distribution: "19 times in 20".
inline constexpr double kNineteenInTwenty = 1.959964;

/// "flat rate", "repair time", "power", "gauge error", "rolling gain".
std::string name_question(BreakEvenQuestion question);

/// The value in its unit: "2.7 x", "8.5 min", "200 W", "+3 psi", "5.2 W".
std::string format_at(BreakEvenQuestion question, double at);

/// The same without its unit, for tables.
std::string name_unit(BreakEvenQuestion question);

/// True when a figure differs from 0 by more than its computing error.
bool is_told_apart(const Figure& figure);

/// The same for a figure whose error comes from sixteen groups of days (METHOD 10.46).
bool is_told_apart_by_groups(const Figure& figure);

/// Three digits, as much as a guess is worth.
std::string format_briefly(double number);

const std::string& name_setup(const WhyFindings& why, int setup);

/// The setup that the page speaks of: the choice, or the next best when the choice is on
/// the bike; -1 when there are no two.
int find_subject(const WhyFindings& why);

/// What was found for this setup, or nothing.
const BreakEvenFindings* find_break_even(const WhyFindings& why, int setup,
                                         BreakEvenQuestion question);
const MovesFindings* find_moves(const WhyFindings& why, int setup);
const PairFindings* find_pair(const WhyFindings& why, int setup);

}  // namespace flattail::publish

// Rows of a picture: how setups are marked and what stands over them.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "publish/pictures/script.h"

namespace flattail::publish {

/// Colour, dash and shape of each row: ROWS, ROW, STYLE, MARK, BOLDED, AGAINST.
/// Shapes: shown[row] = index of a setup
void set_rows(ScriptSettings& s, const Findings& findings, const std::vector<int>& shown);

/// What a row is called: its setup, and whether it is ruled out.
std::vector<std::string> name_setups(const Findings& findings,
                                     const std::vector<int>& shown);

/// Names and notes over rows, cut to fit: WIDE_NAME, PHONE_NAME, NOTE. On a phone the
/// note stands below the name, else at the other end of its line.
void set_captions(ScriptSettings& s, const std::vector<std::string>& names,
                  const std::vector<std::string>& notes, double indent_px = 0.0);

/// Colour and dash of setup `i` of so many, and its shape.
double choose_style(std::size_t i, std::size_t setups, bool is_advised);
double choose_shape(std::size_t i);

/// Two setups on either side of the top line, different where they were: "Latex faster"
/// as WIDE_LEFT and PHONE_LEFT, the other one as _RIGHT.
void set_sides(ScriptSettings& s, const std::string& left, const std::string& right,
               const std::string& word);

/// Lines at the foot of a picture, broken to fit: WIDE_FOOT, PHONE_FOOT and their counts.
void set_foot(ScriptSettings& s, const std::vector<std::string>& texts);

}  // namespace flattail::publish

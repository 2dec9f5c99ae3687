// Text in the columns of a terminal: how wide it is, shortened, padded and wrapped.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace flattail::publish {

/// One line without control characters, which could move a terminal's cursor, and without
/// broken UTF-8; each of them becomes a question mark, line ends and tabs a blank.
std::string clean_line(std::string_view text);

/// A to z in capitals; everything else stays.
std::string upper_ascii(std::string text);

/// Columns that a cleaned text takes: 2 for East Asian wide characters and emoji, 0 for
/// combining marks, else 1.
/// Source: Unicode Standard Annex 11 (East Asian Width), by blocks
int measure_width(std::string_view text);

/// The text, or its beginning and an ellipsis, in at most `width` columns.
std::string shorten_end(const std::string& text, int width);

/// The text, or its beginning, an ellipsis and its end, in at most `width` columns.
std::string shorten_middle(const std::string& text, int width);

/// Names in at most `width` columns each, still different where they were: first cut at
/// the end, then in the middle, then numbered.
std::vector<std::string> shorten_names(const std::vector<std::string>& names, int width);

/// Blanks after or before the text up to `width` columns; longer text stays.
std::string pad_end(std::string text, int width);
std::string pad_start(const std::string& text, int width);

/// Lines of at most `width` columns, broken at blanks; words that are too long are cut.
/// The first line begins with `head`, the others with as many blanks as it is wide.
std::vector<std::string> wrap(const std::string& text, int width,
                              const std::string& head = "");

}  // namespace flattail::publish

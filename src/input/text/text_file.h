// A user's file as text, checked before any parser sees it, and places inside a text.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem_list.h"

namespace flattail::input {

/// A text without byte order mark, known to be UTF-8. Line ends are as they were written.
struct TextFile {
    std::string name;
    std::string text;
};

/// The file's text, or nothing when it is missing, a folder, larger than `max_bytes`,
/// holds a zero byte or is not UTF-8; each adds one problem. `asked_at` is where another
/// file names this one.
std::optional<TextFile> read_text_file(const std::string& path, std::size_t max_bytes,
                                       base::ProblemList& problems,
                                       const Place& asked_at = {});

/// The same checks for a text that is already in memory.
std::optional<TextFile> check_text(std::string text, const std::string& name,
                                   std::size_t max_bytes, base::ProblemList& problems);

/// Turns byte offsets of one text into places. Columns count characters, not bytes. Fast
/// for files without line ends as well. The text must outlive this object.
class TextPlaces {
  public:
    TextPlaces(std::string_view text, std::string name);
    /// Offsets past the end mean the end.
    Place at(std::size_t offset) const;
    /// One line without its end; empty for lines that do not exist.
    std::string_view line(int number) const;

  private:
    std::size_t count_characters(std::size_t offset) const;

    std::string_view text_;
    std::string name_;
    std::vector<std::size_t> line_starts_;
    std::vector<std::size_t> characters_before_block_;
};

/// Without blanks, tabs and line ends at both ends.
std::string_view trim(std::string_view text);

/// ASCII letters in lower case, all else untouched.
std::string to_lower(std::string_view text);

}  // namespace flattail::input

// A user's file as text, checked before any parser sees it, and places inside a text.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem_list.h"

namespace flattail::input {

/// A text file without its byte order mark. Every line end is left as it was written.
struct TextFile {
    std::string name;
    std::string text;
};

/// The file's text, or nothing when it is missing, a folder, larger than `max_bytes`,
/// holds a zero byte or is not UTF-8; each adds one problem.
std::optional<TextFile> read_text_file(const std::string& path, std::size_t max_bytes,
                                       base::ProblemList& problems);

/// The same checks for a text that is already in memory.
std::optional<TextFile> check_text(std::string text, const std::string& name,
                                   std::size_t max_bytes, base::ProblemList& problems);

/// Turns byte offsets of one text into places. Columns count characters, not bytes.
/// The text must outlive this object.
class TextPlaces {
  public:
    TextPlaces(std::string_view text, std::string name);
    Place at(std::size_t offset) const;

  private:
    std::string_view text_;
    std::string name_;
    std::vector<std::size_t> line_starts_;
};

}  // namespace flattail::input

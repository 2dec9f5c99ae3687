// The files of the repository as data, so that every rule can be tried on invented ones.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace flattail::structure {

/// One tracked file. `path` is relative to the top, with '/' between its parts.
struct SourceFile {
    std::string path;
    std::string text;
};

/// What a rule has to say: one line for each breach, none when all is well.
using Complaints = std::vector<std::string>;

/// Every file that git tracks; without git, every file outside .git, build* and
/// reports/run. Binary files come with an empty text.
std::vector<SourceFile> read_tracked_files(const std::string& top);

std::vector<std::string> split_lines(const std::string& text);

/// "src/ride/kernel.h" -> "src/ride"; "" for a file at the top.
std::string name_folder(const std::string& path);

/// True for C++ in the folders named, for example is_code(path, {"src/", "include/"}).
bool is_code(const std::string& path, const std::vector<std::string>& folders);

/// True when `word` stands in `text` with no letter, digit or '_' directly around it.
bool contains_word(std::string_view text, std::string_view word);

/// All complaints under each other, "" when there is none: made for CHECK(... == "").
std::string join(const Complaints& complaints);

}  // namespace flattail::structure

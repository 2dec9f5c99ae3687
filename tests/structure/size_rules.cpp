#include "structure/size_rules.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace flattail::structure {

namespace {

constexpr std::size_t kFileLines = 400;
constexpr std::size_t kFolderUnits = 14;
// The public face has one header for each question a user asks, and no rooms below it.
constexpr const char* kPublicFolder = "include/flattail";
constexpr std::size_t kPublicUnits = 20;
constexpr std::size_t kFunctionLines = 60;
constexpr std::ptrdiff_t kColumns = 90;
constexpr std::array kDocstringKeys{
    "Shapes:", "Units:", "Range:", "Errors:", "Accuracy:", "Source:"};

std::string name_unit(const std::string& path) { return path.substr(0, path.rfind('.')); }

bool opens_no_function(const std::string& line) {
    constexpr std::array kWords{"namespace", "class", "struct", "enum", "union", "const"};
    for (const char* word : kWords) {
        if (line.rfind(word, 0) == 0 && line.find('(') == std::string::npos) return true;
    }
    return false;
}

bool stands_at_the_margin(const std::string& line) {
    return !line.empty() && line[0] != ' ' && line[0] != '#' && line[0] != '}';
}

// Columns on the screen: UTF-8 bytes that continue a letter take none.
std::ptrdiff_t count_columns(const std::string& line) {
    return std::count_if(line.begin(), line.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u;
    });
}

bool holds_key_inside(const std::string& line) {
    const std::size_t mark = line.find("/// ");
    if (mark == std::string::npos) return false;
    const std::size_t begin = line.find_first_not_of(' ', mark + 3);
    return std::any_of(
        kDocstringKeys.begin(), kDocstringKeys.end(), [&](const char* key) {
            return line.find(std::string(" ") + key, begin) != std::string::npos;
        });
}

std::string name_line(const SourceFile& file, std::size_t index) {
    return file.path + ':' + std::to_string(index + 1);
}

}  // namespace

Complaints find_long_files(const std::vector<SourceFile>& files) {
    Complaints complaints;
    for (const SourceFile& file : files) {
        if (!is_code(file.path, {"src/", "include/", "tests/"})) continue;
        const std::size_t lines = split_lines(file.text).size();
        if (lines > kFileLines) {
            complaints.push_back(file.path + " has " + std::to_string(lines) + " lines");
        }
    }
    return complaints;
}

Complaints find_crowded_folders(const std::vector<SourceFile>& files) {
    std::map<std::string, std::set<std::string>> units;
    for (const SourceFile& file : files) {
        if (!is_code(file.path, {"src/", "include/"})) continue;
        units[name_folder(file.path)].insert(name_unit(file.path));
    }
    Complaints complaints;
    for (const auto& [folder, names] : units) {
        const bool is_public = folder == kPublicFolder;
        if (names.size() > (is_public ? kPublicUnits : kFolderUnits)) {
            complaints.push_back(folder + " has " + std::to_string(names.size()) +
                                 " units");
        }
    }
    return complaints;
}

Complaints find_long_functions(const std::vector<SourceFile>& files) {
    Complaints complaints;
    for (const SourceFile& file : files) {
        if (!is_code(file.path, {"src/", "include/"})) continue;
        const std::vector<std::string> lines = split_lines(file.text);
        std::size_t start = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (stands_at_the_margin(lines[i])) start = i;
            if (lines[i] != "}" || opens_no_function(lines[start])) continue;
            const std::size_t length = i - start + 1;
            if (length > kFunctionLines) {
                complaints.push_back(file.path + ':' + std::to_string(start + 1) +
                                     " has " + std::to_string(length) +
                                     " lines: " + lines[start]);
            }
        }
    }
    return complaints;
}

Complaints find_wide_lines(const std::vector<SourceFile>& files) {
    Complaints complaints;
    for (const SourceFile& file : files) {
        if (!is_code(file.path, {"src/", "include/", "tests/"})) continue;
        const std::vector<std::string> lines = split_lines(file.text);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (count_columns(lines[i]) <= kColumns) continue;
            complaints.push_back(name_line(file, i) + " is wider than 90 columns");
        }
    }
    return complaints;
}

Complaints find_run_on_docstrings(const std::vector<SourceFile>& files) {
    Complaints complaints;
    for (const SourceFile& file : files) {
        if (!is_code(file.path, {"src/", "include/"})) continue;
        const std::vector<std::string> lines = split_lines(file.text);
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (!holds_key_inside(lines[i])) continue;
            complaints.push_back(name_line(file, i) + " has a key inside its line");
        }
    }
    return complaints;
}

}  // namespace flattail::structure

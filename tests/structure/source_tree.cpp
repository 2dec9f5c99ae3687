#include "structure/source_tree.h"

#include <algorithm>
#include <cctype>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

namespace flattail::structure {

namespace {

namespace fs = std::filesystem;

std::vector<std::string> ask_git(const std::string& top) {
    const std::string command = "git -C '" + top + "' ls-files -z 2>/dev/null";
    std::string output;
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return {};
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) {
        output += static_cast<char>(c);
    }
    pclose(pipe);
    std::vector<std::string> paths;
    std::istringstream stream(output);
    for (std::string path; std::getline(stream, path, '\0');) paths.push_back(path);
    return paths;
}

bool is_left_out(const fs::path& relative) {
    const std::string first = relative.begin()->string();
    return first == ".git" || first == ".cache" || first.rfind("build", 0) == 0 ||
           relative == fs::path("reports/run");
}

std::vector<std::string> walk(const std::string& top) {
    std::vector<std::string> paths;
    fs::recursive_directory_iterator it(top);
    for (; it != fs::recursive_directory_iterator(); ++it) {
        const fs::path relative = fs::relative(it->path(), top);
        if (is_left_out(relative)) {
            it.disable_recursion_pending();
        } else if (it->is_regular_file()) {
            paths.push_back(relative.generic_string());
        }
    }
    return paths;
}

std::string read_text(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::string text{std::istreambuf_iterator<char>(file), {}};
    return text.find('\0') == std::string::npos ? text : std::string();
}

bool is_word_part(char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
}

}  // namespace

std::vector<SourceFile> read_tracked_files(const std::string& top) {
    std::vector<std::string> paths = ask_git(top);
    if (paths.empty()) paths = walk(top);
    std::sort(paths.begin(), paths.end());
    std::vector<SourceFile> files;
    for (const std::string& path : paths) {
        const fs::path full = fs::path(top) / path;
        if (fs::is_regular_file(full)) files.push_back({path, read_text(full)});
    }
    return files;
}

std::vector<std::string> split_lines(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

std::string name_folder(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    return slash == std::string::npos ? "" : path.substr(0, slash);
}

bool is_code(const std::string& path, const std::vector<std::string>& folders) {
    const std::string ending = fs::path(path).extension().string();
    if (ending != ".h" && ending != ".cpp") return false;
    return std::any_of(folders.begin(), folders.end(), [&](const std::string& folder) {
        return path.rfind(folder, 0) == 0;
    });
}

bool contains_word(std::string_view text, std::string_view word) {
    for (std::size_t at = text.find(word); at != std::string_view::npos;
         at = text.find(word, at + 1)) {
        const std::size_t end = at + word.size();
        const bool starts = at == 0 || !is_word_part(text[at - 1]);
        const bool ends = end == text.size() || !is_word_part(text[end]);
        if (starts && ends) return true;
    }
    return false;
}

std::string join(const Complaints& complaints) {
    std::string text;
    for (const std::string& complaint : complaints) text += complaint + '\n';
    return text;
}

}  // namespace flattail::structure

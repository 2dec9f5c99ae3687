#include "structure/method_rules.h"

#include <algorithm>
#include <cctype>
#include <set>

namespace flattail::structure {

namespace {

struct Section {
    std::string number;  // "4" or "4.2"
    std::vector<std::string> tests;
};

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

// The number that starts at `at`, such as "4.2"; a dot that ends a sentence is left out.
std::string read_number(const std::string& text, std::size_t at) {
    std::size_t end = at;
    while (end < text.size() && (is_digit(text[end]) || text[end] == '.')) ++end;
    while (end > at && text[end - 1] == '.') --end;
    return text.substr(at, end - at);
}

std::string read_heading_number(const std::string& line) {
    const std::size_t hashes = line.find_first_not_of('#');
    if (hashes == 0 || hashes == std::string::npos || line[hashes] != ' ') return "";
    return read_number(line, hashes + 1);
}

// "- (4.2) The law" and "**7.1 The plane.**" begin an entry within a section.
std::string read_entry_number(const std::string& line) {
    for (const std::string opening : {"- (", "**"}) {
        if (line.rfind(opening, 0) == 0) return read_number(line, opening.size());
    }
    return "";
}

std::vector<std::string> list_test_paths(const std::string& line) {
    std::vector<std::string> paths;
    for (std::size_t at = line.find("tests/"); at != std::string::npos;
         at = line.find("tests/", at + 1)) {
        std::size_t end = at;
        const auto belongs = [](char c) {
            return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' ||
                   c == '/' || c == '.' || c == '-';
        };
        while (end < line.size() && belongs(line[end])) ++end;
        while (end > at && line[end - 1] == '.') --end;
        paths.push_back(line.substr(at, end - at));
    }
    return paths;
}

std::vector<Section> read_sections(const std::string& text) {
    std::vector<Section> sections;
    for (const std::string& line : split_lines(text)) {
        const std::string number = read_heading_number(line);
        if (!number.empty()) sections.push_back({number, {}});
        if (sections.empty()) continue;
        const std::vector<std::string> found = list_test_paths(line);
        std::vector<std::string>& tests = sections.back().tests;
        tests.insert(tests.end(), found.begin(), found.end());
    }
    return sections;
}

const SourceFile* find_method(const std::vector<SourceFile>& files) {
    const auto found =
        std::find_if(files.begin(), files.end(),
                     [](const SourceFile& file) { return file.path == "METHOD.md"; });
    return found == files.end() ? nullptr : &*found;
}

std::vector<std::string> list_citations(const std::string& text) {
    static const std::string kWord = "METHOD ";
    std::vector<std::string> numbers;
    for (std::size_t at = text.find(kWord); at != std::string::npos;
         at = text.find(kWord, at + 1)) {
        const std::string number = read_number(text, at + kWord.size());
        if (!number.empty()) numbers.push_back(number);
    }
    return numbers;
}

bool has_sections_below(const std::vector<Section>& sections, const Section& section) {
    return std::any_of(sections.begin(), sections.end(), [&](const Section& other) {
        return other.number.rfind(section.number + '.', 0) == 0;
    });
}

}  // namespace

Complaints find_dangling_citations(const std::vector<SourceFile>& files) {
    const SourceFile* method = find_method(files);
    if (method == nullptr) return {"METHOD.md is missing"};
    std::set<std::string> known;
    for (const Section& section : read_sections(method->text))
        known.insert(section.number);
    for (const std::string& line : split_lines(method->text))
        known.insert(read_entry_number(line));
    Complaints complaints;
    for (const SourceFile& file : files) {
        if (!is_code(file.path, {"src/", "include/", "tests/"})) continue;
        if (file.path.rfind("tests/structure/", 0) == 0) continue;  // invented citations
        for (const std::string& number : list_citations(file.text)) {
            if (known.count(number) == 0) {
                complaints.push_back(file.path + " cites METHOD " + number +
                                     ", which is no section");
            }
        }
    }
    return complaints;
}

Complaints find_untested_sections(const std::vector<SourceFile>& files) {
    const SourceFile* method = find_method(files);
    if (method == nullptr) return {"METHOD.md is missing"};
    std::set<std::string> paths;
    for (const SourceFile& file : files) paths.insert(file.path);
    const std::vector<Section> sections = read_sections(method->text);
    Complaints complaints;
    if (sections.empty()) complaints.push_back("METHOD.md has no numbered section");
    for (const Section& section : sections) {
        if (section.tests.empty() && !has_sections_below(sections, section)) {
            complaints.push_back("METHOD " + section.number + " names no test");
        }
        for (const std::string& test : section.tests) {
            if (paths.count(test) == 0) {
                complaints.push_back("METHOD " + section.number + " names " + test +
                                     ", which is missing");
            }
        }
    }
    return complaints;
}

}  // namespace flattail::structure

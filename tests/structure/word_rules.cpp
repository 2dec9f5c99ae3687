#include "structure/word_rules.h"

#include <algorithm>
#include <cctype>
#include <set>

namespace flattail::structure {

namespace {

enum class Letters { kAsWritten, kAnyCase };

struct ForbiddenWord {
    std::string word;
    Letters letters;
};

// Each is cut in two, so that this file does not forbid itself.
ForbiddenWord glue(const std::string& head, const std::string& tail, Letters letters) {
    return {head + tail, letters};
}

const std::vector<ForbiddenWord> kForbidden{
    glue("TO", "DO", Letters::kAsWritten),
    glue("FIX", "ME", Letters::kAsWritten),
    glue("XX", "X", Letters::kAsWritten),
    glue("tran", "script", Letters::kAnyCase),
    glue("not ", "implemented", Letters::kAnyCase),
    glue("place", "holder", Letters::kAnyCase),
    glue("place", "holders", Letters::kAnyCase),
    glue("/wo", "rk", Letters::kAsWritten),  // the folder of one machine
};

const std::set<std::string> kTop{"CMakeLists.txt", "CMakePresets.json",
                                 "README.md",      "DEVELOPERS.md",
                                 "METHOD.md",      "CHANGELOG.md",
                                 "LICENSE",        "src",
                                 "include",        "tests",
                                 "scenarios",      "reports"};

const std::vector<std::string> kClocks{"system_clock", "steady_clock",
                                       "high_resolution_clock", "clock_gettime",
                                       "gettimeofday"};
const std::vector<std::string> kPrintsAndExits{
    "std::cout", "std::cerr",       "std::clog",    "printf(",
    "puts(",     "std::exit",       "std::abort",   "getenv",
    "_Exit",     "std::quick_exit", "fmt::print(\""};

std::string lower(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return text;
}

bool contains_call(const std::string& line, const std::string& call) {
    const std::size_t at = line.find(call);
    if (at == std::string::npos) return false;
    return at == 0 || (std::isalnum(static_cast<unsigned char>(line[at - 1])) == 0 &&
                       line[at - 1] != '_');
}

std::string drop_comment(const std::string& line) {
    return line.substr(0, line.find("//"));
}

bool starts_with(const std::string& text, const std::string& beginning) {
    return text.rfind(beginning, 0) == 0;
}

// The words that may not stand in this file, by where it lives.
std::vector<std::string> list_side_doors(const std::string& path) {
    if (starts_with(path, "src/app/") || starts_with(path, "tests/bench/")) return {};
    if (starts_with(path, "tests/structure/")) return {};  // they spell the words
    if (is_code(path, {"tests/"})) return kClocks;
    if (!is_code(path, {"src/", "include/"})) return {};
    std::vector<std::string> words = kClocks;
    words.insert(words.end(), kPrintsAndExits.begin(), kPrintsAndExits.end());
    return words;
}

}  // namespace

Complaints find_forbidden_words(const std::vector<SourceFile>& files) {
    Complaints complaints;
    for (const SourceFile& file : files) {
        if (file.path.size() > 4 && file.path.substr(file.path.size() - 4) == ".gpx")
            continue;
        const std::string lowered = lower(file.text);
        for (const ForbiddenWord& entry : kForbidden) {
            const bool any_case = entry.letters == Letters::kAnyCase;
            if (contains_word(any_case ? lowered : file.text, entry.word)) {
                complaints.push_back(file.path + " says \"" + entry.word + '"');
            }
        }
    }
    return complaints;
}

Complaints find_strange_top_entries(const std::vector<SourceFile>& files) {
    std::set<std::string> strange;
    for (const SourceFile& file : files) {
        const std::string top = file.path.substr(0, file.path.find('/'));
        if (top[0] != '.' && kTop.count(top) == 0) strange.insert(top);
    }
    Complaints complaints;
    for (const std::string& entry : strange) {
        complaints.push_back(entry + " is not an entry of the top folder");
    }
    return complaints;
}

Complaints find_side_doors(const std::vector<SourceFile>& files) {
    Complaints complaints;
    for (const SourceFile& file : files) {
        const std::vector<std::string> words = list_side_doors(file.path);
        if (words.empty()) continue;
        std::size_t number = 0;
        for (const std::string& line : split_lines(file.text)) {
            ++number;
            for (const std::string& word : words) {
                if (!contains_call(drop_comment(line), word)) continue;
                complaints.push_back(file.path + ':' + std::to_string(number) + " uses " +
                                     word);
            }
        }
    }
    return complaints;
}

}  // namespace flattail::structure

#include "structure/include_rules.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace flattail::structure {

namespace {

// The rooms in the order in which data walks through them: include only to the left.
const std::vector<std::string> kRooms{
    "base",     "chance", "physics", "input",    "course", "evidence", "scenario",
    "sampling", "ride",   "outcome", "findings", "study",  "publish",  "app"};

// A header from outside this repository, by how its name begins, and the rooms that may
// use it. A package that is not here needs a line, and a reason in the review.
struct Outside {
    std::string begins;
    std::vector<std::string> rooms;
    std::size_t most_files = 0;  // 0: no limit
};
const std::vector<Outside> kOutside{
    {"boost/", kRooms},
    {"fmt/", kRooms},
    {"Eigen/", {"chance", "course", "evidence", "sampling", "ride", "findings", "study"}},
    {"toml++/", {"input"}, 1},
    {"pugixml.hpp", {"input"}, 1},
    {"csv.h", {"input"}, 1},
    {"GeographicLib/", {"input", "course"}},
    {"Random123/", {"sampling"}},
    {"tbb/", {"study"}, 1},
    {"oneapi/", {"study"}, 1},
    {"nlohmann/", {"publish"}},
    {"kainjow/", {"publish"}, 1},
    {"CLI/", {"app"}},
    {"unistd.h", {"publish", "app"}},
    {"fcntl.h", {"publish", "app"}},
    {"sys/", {"publish", "app"}},
    {"iostream", {"app"}},
    // The calendar alone, but for app; words_test holds that no clock is read.
    {"chrono", {"input", "evidence", "app"}},
    {"ctime", {"app"}},
};

struct Include {
    std::string from;  // path of the including file
    std::string name;  // what stands between the quotes or brackets
    bool quoted = false;
};

std::vector<Include> list_includes(const SourceFile& file) {
    std::vector<Include> includes;
    for (const std::string& line : split_lines(file.text)) {
        if (line.rfind("#include", 0) != 0) continue;
        const std::size_t open = line.find_first_of("<\"");
        if (open == std::string::npos) continue;
        const std::size_t close = line.find_first_of(">\"", open + 1);
        includes.push_back(
            {file.path, line.substr(open + 1, close - open - 1), line[open] == '"'});
    }
    return includes;
}

// "src/ride/vector/solve.cpp" -> "ride"; "" for a public header.
std::string name_room(const std::string& path) {
    if (path.rfind("src/", 0) != 0) return "";
    return path.substr(4, path.find('/', 4) - 4);
}

std::ptrdiff_t find_place(const std::string& room) {
    const auto found = std::find(kRooms.begin(), kRooms.end(), room);
    return found == kRooms.end() ? -1 : found - kRooms.begin();
}

bool is_standard(const std::string& name) {
    return name.find_first_of("/.") == std::string::npos;
}

bool is_allowed_inside(const std::string& room, const std::string& name) {
    const std::string target = name.substr(0, name.find('/'));
    if (target == "flattail") return true;
    if (room.empty() || find_place(target) < 0) return false;
    if (room == "app") return target == "app";
    return find_place(target) <= find_place(room);
}

const Outside* find_outside(const std::string& name) {
    const auto fits = [&](const Outside& entry) {
        const bool whole = entry.begins.find_first_of("/.") == std::string::npos;
        return whole ? name == entry.begins : name.rfind(entry.begins, 0) == 0;
    };
    const auto found = std::find_if(kOutside.begin(), kOutside.end(), fits);
    return found == kOutside.end() ? nullptr : &*found;
}

bool is_allowed_outside(const std::string& room, const std::string& name) {
    const Outside* entry = find_outside(name);
    if (entry == nullptr) return is_standard(name);
    return std::count(entry->rooms.begin(), entry->rooms.end(), room) > 0;
}

// "ride/vector/lanes.h" -> "src/ride/vector"; "flattail/x.h" -> "include/flattail".
std::string name_included_folder(const std::string& name) {
    const bool is_public = name.rfind("flattail/", 0) == 0;
    return (is_public ? "include/" : "src/") + name_folder(name);
}

Complaints find_entries_used_too_often(
    const std::map<std::string, std::set<std::string>>& users) {
    Complaints complaints;
    for (const Outside& entry : kOutside) {
        const auto found = users.find(entry.begins);
        if (entry.most_files == 0 || found == users.end()) continue;
        if (found->second.size() <= entry.most_files) continue;
        for (const std::string& path : found->second) {
            complaints.push_back(path + " is one of too many files that include " +
                                 entry.begins);
        }
    }
    return complaints;
}

}  // namespace

Complaints find_forbidden_includes(const std::vector<SourceFile>& files) {
    Complaints complaints;
    std::map<std::string, std::set<std::string>> users;  // of each entry of kOutside
    for (const SourceFile& file : files) {
        if (!is_code(file.path, {"src/", "include/"})) continue;
        const std::string room = name_room(file.path);
        if (!room.empty() && find_place(room) < 0) {
            complaints.push_back(file.path + ": no room is called " + room);
        }
        for (const Include& include : list_includes(file)) {
            const Outside* entry = include.quoted ? nullptr : find_outside(include.name);
            if (entry != nullptr) users[entry->begins].insert(file.path);
            const bool allowed = include.quoted ? is_allowed_inside(room, include.name)
                                                : is_allowed_outside(room, include.name);
            if (!allowed)
                complaints.push_back(file.path + " may not include " + include.name);
        }
    }
    const Complaints crowded = find_entries_used_too_often(users);
    complaints.insert(complaints.end(), crowded.begin(), crowded.end());
    return complaints;
}

Complaints find_two_way_folders(const std::vector<SourceFile>& files) {
    std::set<std::pair<std::string, std::string>> edges;
    for (const SourceFile& file : files) {
        if (!is_code(file.path, {"src/", "include/"})) continue;
        for (const Include& include : list_includes(file)) {
            if (!include.quoted) continue;
            edges.emplace(name_folder(file.path), name_included_folder(include.name));
        }
    }
    Complaints complaints;
    for (const auto& [from, to] : edges) {
        if (from < to && edges.count({to, from}) > 0) {
            complaints.push_back(from + " and " + to + " include each other");
        }
    }
    return complaints;
}

}  // namespace flattail::structure

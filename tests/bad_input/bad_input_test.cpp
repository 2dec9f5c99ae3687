// Every <case>.toml here holds mistakes; <case>.expected is what a user is told, to the
// letter. <case>.set, where there is one, holds settings as on a command line. With
// FLATTAIL_WRITE_EXPECTED in the environment the expected files are written instead: read
// the difference before you keep it.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "flattail/scenario.h"
#include "support/catch.h"

namespace {

namespace fs = std::filesystem;

const fs::path kFolder = fs::path(FLATTAIL_SOURCE_DIR) / "tests" / "bad_input";

std::string read_file(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::vector<fs::path> list_cases() {
    std::vector<fs::path> cases;
    for (const auto& entry : fs::directory_iterator(kFolder)) {
        if (entry.path().extension() == ".toml") cases.push_back(entry.path());
    }
    std::sort(cases.begin(), cases.end());
    return cases;
}

std::vector<std::string> read_settings(fs::path path) {
    std::ifstream file(path.replace_extension(".set"));
    std::vector<std::string> settings;
    for (std::string line; std::getline(file, line);) settings.push_back(line);
    return settings;
}

// Messages name files by the path that the user gave; here that is this folder.
std::string drop_folder(std::string text) {
    const std::string folder = kFolder.string() + '/';
    for (auto at = text.find(folder); at != std::string::npos; at = text.find(folder)) {
        text.erase(at, folder.size());
    }
    return text;
}

// What a user is told, one problem a line; empty when the file is taken as good.
std::string collect_problems(const fs::path& path) {
    try {
        flattail::read_scenario({path.string(), read_settings(path)});
    } catch (const flattail::InvalidInput& error) {
        return drop_folder(error.what()) + '\n';
    }
    return {};
}

}  // namespace

TEST_CASE("each mistake in a file is named with its place and its remedy") {
    const std::vector<fs::path> cases = list_cases();
    REQUIRE(cases.size() >= 200);
    for (fs::path path : cases) {
        const std::string told = collect_problems(path);
        CAPTURE(path.filename().string());
        path.replace_extension(".expected");
        if (std::getenv("FLATTAIL_WRITE_EXPECTED")) std::ofstream(path) << told;
        CHECK_FALSE(told.empty());
        CHECK(told == read_file(path));
    }
}

TEST_CASE("the scenario that the cases spoil is good without them") {
    CHECK(collect_problems(kFolder / "parts" / "base.toml").empty());
}

TEST_CASE("every expected text belongs to a case") {
    for (const auto& entry : fs::directory_iterator(kFolder)) {
        if (entry.path().extension() != ".expected") continue;
        fs::path scenario = entry.path();
        CAPTURE(scenario.filename().string());
        CHECK(fs::exists(scenario.replace_extension(".toml")));
    }
}

TEST_CASE("a missing scenario file is named") {
    CHECK_FALSE(collect_problems(kFolder / "no_such_file.toml").empty());
}

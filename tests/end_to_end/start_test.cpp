// `flattail start`, without a terminal: a commented file that runs at once.
#include <filesystem>
#include <fstream>
#include <sstream>

#include "end_to_end/program.h"
#include "support/catch.h"

using namespace flattail::test;

namespace {

namespace fs = std::filesystem;

std::string make_folder(const std::string& name) {
    const fs::path folder = fs::temp_directory_path() / ("flattail-start-" + name);
    fs::remove_all(folder);
    fs::create_directories(folder);
    return folder.string();
}

std::string read_file(const fs::path& path) {
    std::ifstream in(path);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

}  // namespace

TEST_CASE("start without a terminal writes a commented file that runs at once") {
    const std::string folder = make_folder("runs");
    REQUIRE(run_program(folder, {"start", "mine.toml"}).exit_code == 0);
    const std::string text = read_file(fs::path(folder) / "mine.toml");
    CHECK(text.find("# goal = ") != std::string::npos);
    CHECK(run_program(folder, {"check", "mine.toml"}).exit_code == 0);
    const Ran raced = run_program(folder, {"race", "mine.toml", "--races", "2000"});
    CHECK(raced.exit_code == 0);
    CHECK(raced.output.find("CHOICE") != std::string::npos);
}

TEST_CASE("start never overwrites a file") {
    const std::string folder = make_folder("keeps");
    std::ofstream(fs::path(folder) / "mine.toml") << "precious\n";
    const Ran ran = run_program(folder, {"start", "mine.toml"});
    CHECK(ran.exit_code == 2);
    CHECK(ran.errors.find("is there already") != std::string::npos);
    CHECK(read_file(fs::path(folder) / "mine.toml") == "precious\n");
}

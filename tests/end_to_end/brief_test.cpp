// What `brief` writes, beside what `race` and `why` say of the same days.
#include <pugixml.hpp>

#include "end_to_end/program.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail::test;

namespace {

const std::string kScenario =
    std::string(FLATTAIL_SOURCE_DIR) + "/scenarios/lakeside/scenario.toml";

// The paragraphs of a page under one of its headings.
std::vector<std::string> list_paragraphs(const pugi::xml_document& page,
                                         const std::string& heading) {
    std::vector<std::string> paragraphs;
    const std::string path = "//section[h2='" + heading + "']/p";
    for (const auto& found : page.select_nodes(path.c_str())) {
        paragraphs.push_back(found.node().text().as_string());
    }
    return paragraphs;
}

std::string unwrap(const std::string& text) {
    std::string line;
    for (const char c : text) {
        const char as_space = c == '\n' ? ' ' : c;
        if (as_space == ' ' && !line.empty() && line.back() == ' ') continue;
        line += as_space;
    }
    return line;
}

}  // namespace

TEST_CASE("a brief stands on the tables of race and the turns of why", "[slow]") {
    const ScratchDirectory scratch;
    const auto run = [&](const std::string& command) {
        const Ran ran = run_program(
            scratch.path(), {command, kScenario, "--races", "4096", "--out", command});
        INFO(ran.errors);
        REQUIRE(ran.exit_code == 0);
        return ran.output;
    };
    const std::string card = run("brief");
    run("race");
    const std::string why = unwrap(run("why"));
    const std::string folder = scratch.path() + '/';
    for (const char* table : {"percentiles.csv", "tail-risk.csv", "paired.csv",
                              "histogram.csv", "conditions.csv", "kit.csv"}) {
        INFO(table);
        CHECK(read_file(folder + "brief/" + table) ==
              read_file(folder + "race/" + table));
    }
    CHECK(contains(card, read_file(folder + "brief/brief.txt")));
    CHECK(read_file(folder + "brief/brief.pdf").rfind("%PDF-", 0) == 0);
    pugi::xml_document page;
    REQUIRE(page.load_file((folder + "brief/brief.html").c_str(),
                           pugi::parse_default | pugi::parse_doctype));
    const auto turns = list_paragraphs(page, "CHANGES THE ADVICE");
    REQUIRE_FALSE(turns.empty());
    for (const std::string& turn : turns) {
        INFO(turn);
        // The page of why adds the computing error within the brackets.
        CHECK(contains(why, turn.substr(0, turn.find(')'))));
    }
}

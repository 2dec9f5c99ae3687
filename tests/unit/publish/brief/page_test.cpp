// The page, its PDF and the card.
#include <cstdlib>
#include <filesystem>
#include <pugixml.hpp>
#include <set>

#include "flattail/brief.h"
#include "publish/brief/calendar.h"
#include "publish/brief/card.h"
#include "publish/brief/page_html.h"
#include "publish/children/child.h"
#include "publish/pages/text.h"
#include "publish/templates.h"
#include "support/catch.h"
#include "support/scratch_directory.h"
#include "unit/publish/brief/brief_scenario.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;
using namespace flattail::test;

namespace {

const BriefPictures kPictures{{"<svg/>", "<svg/>", "<svg/>", "<svg/>"},
                              {"<svg/>", "<svg/>", "<svg/>", "<svg/>"}};

Findings invent_with_names(const std::vector<std::string>& names) {
    Findings findings = invent_findings(names);
    findings.facts.race_name = names.back();
    return findings;
}

std::string toml_quote(const std::string& name) {
    std::string text;
    for (const char c : name) {
        if (c == '"' || c == '\\') text += '\\';
        text += c;
    }
    return '"' + text + '"';
}

// Every key that a template asks for is among the values of its place.
void check_keys(const std::string& text, const PageValues& values,
                const std::vector<const PageValues*>& outer) {
    std::vector<const PageValues*> known = outer;
    known.push_back(&values);
    const auto has = [&](const std::string& key) {
        for (const PageValues* v : known) {
            if (v->texts.count(key) + v->flags.count(key) + v->lists.count(key) > 0)
                return true;
        }
        return false;
    };
    for (std::size_t at = text.find("{{"); at != std::string::npos;
         at = text.find("{{", at)) {
        const std::size_t end = text.find("}}", at);
        std::string key = text.substr(at + 2, end - at - 2);
        at = end + 2;
        const char kind = key.front();
        if (kind == '{' || kind == '#' || kind == '^' || kind == '/') key.erase(0, 1);
        INFO(key);
        CHECK(has(key));
        const auto list = values.lists.find(key);
        if (kind != '#' || list == values.lists.end()) continue;
        REQUIRE_FALSE(list->second.empty());
        const std::string close = "{{/" + key + "}}";
        const std::size_t stop = text.find(close, at);
        check_keys(text.substr(at, stop - at), list->second.front(), known);
        at = stop + close.size();
    }
}

int count_nodes(const pugi::xml_document& page, const char* path) {
    return static_cast<int>(page.select_nodes(path).size());
}

}  // namespace

TEST_CASE("every key of the page's template has a value") {
    const Findings findings = invent_findings({"Butyl", "Latex", "TPU"});
    const Scenario scenario = read_brief_scenario(
        {}, "[[setup]]\nname = \"TPU\"\nlike = \"Latex\"\ninner = \"TPU\"\n");
    const PageValues values =
        list_brief_values(make_content(findings, scenario), kPictures);
    check_keys(std::string(find_template("brief.html")), values, {});
}

TEST_CASE("a page is well-formed and says what readers of all kinds need") {
    const Findings findings = invent_findings();
    const std::string html =
        write_brief_html(make_content(findings, read_brief_scenario()), kPictures);
    pugi::xml_document page;
    REQUIRE(page.load_string(html.c_str(), pugi::parse_default | pugi::parse_doctype));
    CHECK(count_nodes(page, "//html[@lang='en']") == 1);
    CHECK(count_nodes(page, "//title") == 1);
    CHECK(count_nodes(page, "//h1") == 1);
    CHECK(count_nodes(page, "//h2") >= 5);
    CHECK(count_nodes(page, "//img") == 2);
    CHECK(count_nodes(page, "//img[string-length(@alt) < 40]") == 0);
    CHECK(count_nodes(page, "//table[not(@class)]//thead//th[@scope='col']") == 2);
    CHECK(count_nodes(page, "//table[@class='pump']//thead//th[@scope='col']") == 5);
    CHECK(count_nodes(page, "//tbody/tr") ==
          count_nodes(page, "//tbody//th[@scope='row']"));
    CHECK(html.find("prefers-color-scheme: dark") != std::string::npos);
    CHECK(html.find("Course rules, local law and a qualified mechanic come first.") !=
          std::string::npos);
}

TEST_CASE("a page runs nothing and asks nobody") {
    const std::string html = write_brief_html(
        make_content(invent_findings(), read_brief_scenario()), kPictures);
    pugi::xml_document page;
    REQUIRE(page.load_string(html.c_str()));
    CHECK(count_nodes(page, "//script | //link | //iframe | //object | //a") == 0);
    CHECK(html.find("http") == std::string::npos);
    CHECK(html.find("@import") == std::string::npos);
    CHECK(html.find("url(") == std::string::npos);
    for (const pugi::xpath_node& node :
         page.select_nodes("//img/@src | //source/@srcset")) {
        CHECK(std::string(node.attribute().value()).rfind("data:image/svg+xml", 0) == 0);
    }
}

TEST_CASE("names stay text, whatever stands in them") {
    const std::vector<std::string> names = list_hostile_names();
    for (const std::string& name : names) {
        INFO(name);
        Findings findings = invent_with_names({"Butyl (on now)", name});
        BriefContent content = make_content(findings, read_brief_scenario());
        const std::string plain = write_brief_html(
            make_content(invent_findings(), read_brief_scenario()), kPictures);
        const std::string html = write_brief_html(content, kPictures);
        pugi::xml_document page, plain_page;
        REQUIRE(page.load_string(html.c_str()));
        REQUIRE(plain_page.load_string(plain.c_str()));
        // As many elements as with plain names: none was smuggled in.
        CHECK(count_nodes(page, "//*") == count_nodes(plain_page, "//*"));
        const std::string shown = page.select_node("//h1").node().child_value();
        CHECK(shown.find(name_setups(findings).at(1)) != std::string::npos);
        CHECK(html.find('\x01') == std::string::npos);
    }
}

TEST_CASE("names of riders and races are escaped too") {
    for (const std::string& name :
         {std::string("<b>O'Neil & \"Co\"</b>"), std::string(300, 'W')}) {
        const Scenario scenario = read_brief_scenario(
            {"rider.name=" + toml_quote(name), "race.name=" + toml_quote(name)});
        const std::string html =
            write_brief_html(make_content(invent_findings(), scenario), kPictures);
        pugi::xml_document page;
        REQUIRE(page.load_string(html.c_str()));
        CHECK(count_nodes(page, "//b") == 0);
        CHECK(html.find("<b>") == std::string::npos);
    }
}

TEST_CASE("a card has at most 12 lines of 72 columns") {
    for (const std::string& name : list_hostile_names()) {
        const Findings findings = invent_with_names({"Butyl (on now)", name});
        const std::string card =
            write_card(make_content(findings, read_brief_scenario()));
        const auto lines = split_lines(card);
        CHECK(lines.size() <= 12);
        CHECK(lines.size() >= 8);
        for (const std::string& line : lines) CHECK(measure_width(line) <= 72);
    }
}

TEST_CASE("a message holds the pressures however long the tyre's name is") {
    const std::string card = write_brief_card(
        invent_findings(), read_brief_scenario({"setup.Latex.tyre=thin time-trial 25 mm",
                                                "setup.Latex.pressure=90 psi"}));
    CHECK(card.find("thin time-trial 25 mm; latex; 90/90 psi, 6.2/6.2 bar") !=
          std::string::npos);
}

TEST_CASE("a crowded brief leaves the picture of the course to the screen") {
    BriefContent content = make_content(invent_findings(), read_brief_scenario());
    CHECK(write_brief_html(content, kPictures).find("course crowded") ==
          std::string::npos);
    content.blocks.push_back({"RULED OUT", std::vector<std::string>(20, "Too many.")});
    const std::string page = write_brief_html(content, kPictures);
    CHECK(page.find("course crowded") != std::string::npos);
    CHECK(page.find(".crowded { display: none; }") > page.find("@media print"));
}

TEST_CASE("the PDF has two pages of A4 at most and the same bytes each time") {
    const ScratchDirectory scratch;
    const Findings findings = invent_findings();
    const Scenario scenario = read_brief_scenario();
    const Drawn drawn = write_brief(findings, scenario, scratch.path());
    for (const std::string& problem : drawn.problems) FAIL(problem);
    const std::string first = read_whole(scratch.path() + "/brief.pdf");
    CHECK(first.rfind("%PDF-", 0) == 0);
    write_brief(findings, scenario, scratch.path());
    CHECK((read_whole(scratch.path() + "/brief.pdf") == first));
    Child info;
    info.program = "sh";
    info.words = {"-c", "pdfinfo brief.pdf > info.txt"};
    info.directory = scratch.path();
    run_child(info);
    const std::string told = read_whole(scratch.path() + "/info.txt");
    const int pages = std::stoi(told.substr(told.find("Pages:") + 6));
    CHECK((pages == 1 || pages == 2));
    CHECK(told.find("Title:           Race brief: Three Herons Middle") !=
          std::string::npos);
    CHECK(told.find("595.276 x 841.89 pts (A4)") != std::string::npos);
    CHECK(read_whole(scratch.path() + "/brief.txt").find("RIDE Latex (FIRM)") !=
          std::string::npos);
    CHECK(read_whole(scratch.path() + "/brief.pdf").size() > 10000);
}

TEST_CASE(
    "without its programs a brief loses pictures and PDF, and says what to install") {
    const ScratchDirectory scratch;
    const std::string path = std::getenv("PATH");
    ::setenv("PATH", scratch.path().c_str(), 1);
    const Drawn drawn =
        write_brief(invent_findings(), read_brief_scenario(), scratch.path());
    ::setenv("PATH", path.c_str(), 1);
    REQUIRE(drawn.problems.size() == 2);
    CHECK(drawn.problems[0].find("gnuplot is not installed -> apt install gnuplot-nox") !=
          std::string::npos);
    CHECK(
        drawn.problems[1].find("weasyprint is not installed -> apt install weasyprint") !=
        std::string::npos);
    CHECK(std::filesystem::exists(scratch.path() + "/brief.html"));
    CHECK(std::filesystem::exists(scratch.path() + "/brief.txt"));
    CHECK_FALSE(std::filesystem::exists(scratch.path() + "/brief.pdf"));
    // The dots are told in words instead.
    CHECK(read_whole(scratch.path() + "/brief.html")
              .find("half of the days are faster than") != std::string::npos);
}

TEST_CASE("days are counted as in the calendar") {
    CHECK(count_days_to("1970-01-01") == 0);
    CHECK(count_days_to("2000-02-29") == 11016);  // 951,782,400 s
    CHECK(count_days_to("2026-06-14") == 20618);  // 1,781,395,200 s
    CHECK_FALSE(count_days_to("Sunday"));
    CHECK(name_day_before("2026-06-14", 3) == "Thursday");
    CHECK(name_day_before("2026-03-01", 1) == "Saturday");
    CHECK(name_day_before("", 1) == "the day before the race");
    CHECK(format_long_date("2026-06-14") == "Sunday 14 June 2026");
    CHECK(format_long_date("in June") == "in June");
}

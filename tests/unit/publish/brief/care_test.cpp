// What a brief tells to carry, check and do, by setup, rider and course.
#include <algorithm>

#include "publish/brief/content.h"
#include "support/catch.h"
#include "unit/publish/brief/brief_scenario.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;
using namespace flattail::test;

namespace {

std::string tell(const std::vector<std::string>& settings, Certainty certainty) {
    Findings findings = invent_findings();
    findings.verdict.certainty = certainty;  // a toss-up advises butyl, else latex
    std::string text;
    for (const BriefBlock& block :
         make_content(findings, read_brief_scenario(settings)).blocks) {
        text += block.title + ": ";
        for (const std::string& line : block.lines) text += line + ' ';
    }
    return text;
}

std::string tell_latex(const std::vector<std::string>& settings = {}) {
    return tell(settings, Certainty::kFirm);
}

std::string tell_first(const std::vector<std::string>& settings) {
    return tell(settings, Certainty::kTossUp);
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("latex with butyl spares: why, and when to pump") {
    const std::string latex = tell_latex();
    CHECK(has(latex, "CARRY: 2 x butyl tube, 2 x cartridge 16 g, levers."));
    CHECK(has(latex, "Butyl spares on purpose"));
    CHECK(has(latex, "Latex loses air overnight"));
    CHECK_FALSE(has(tell_first({}), "Latex loses air"));
    CHECK_FALSE(has(tell_first({}), "Butyl spares on purpose"));
}

TEST_CASE("one more thing to carry is told where it pays, for the advised setup") {
    Findings findings = invent_findings();
    KitRow row;
    row.setup = 1;
    row.item = "boot";
    row.is_added = true;
    row.finishes = {1.0 / 280.0, 1e-4};
    row.costs_s = {0.2, 0.01};
    row.net_s = {10.0, 0.5};
    findings.kit = {row};
    const auto carry = [&](Certainty certainty) {
        findings.verdict.certainty = certainty;
        return make_content(findings, read_brief_scenario()).blocks.at(0).lines.back();
    };
    const std::string boot =
        "A boot costs less than 1 s and saves the race on 1 day in 280: take it.";
    CHECK(carry(Certainty::kFirm) == boot);
    CHECK(carry(Certainty::kTossUp) != boot);  // butyl, which the row is not about
}

TEST_CASE("tubeless: sealant in place of beads and slow leaks") {
    const std::string text = tell_first({"setup.Butyl (on now).inner=tubeless"});
    CHECK(has(text, "Sealant not older than 3 months"));
    CHECK(has(text, "turn the hole down and wait"));
    CHECK(has(text, "CO2 can spoil sealant"));
    CHECK_FALSE(has(text, "No tube under the bead"));
    CHECK_FALSE(has(tell_latex(), "Sealant"));
}

TEST_CASE("plugs and pumps are named where they are carried") {
    const auto tell_sealed = [](const std::string& kit) {
        return tell_first({"setup.Butyl (on now).inner=tubeless", "kit=" + kit});
    };
    const std::string both =
        tell_sealed("[\"tube\", \"plug\", \"cartridge 16 g\", \"mini pump\"]");
    CHECK(has(both, "then a plug"));
    CHECK(has(both, "air from the pump after it"));
    const std::string neither = tell_sealed("[\"tube\", \"cartridge 16 g\"]");
    CHECK_FALSE(has(neither, "plug."));
    CHECK_FALSE(has(neither, "the pump"));
}

TEST_CASE("rim brakes: pads and hot rims") {
    const std::vector<std::string> rim{"rim.brake=rim"};
    CHECK(has(tell_first(rim), "Let a hot rim cool before a tube touches it"));
    CHECK(has(tell_first(rim), "Brake pads meet the rim and never the tyre"));
    CHECK_FALSE(has(tell_first({"rim.brake=disc"}), "hot rim"));
}

TEST_CASE("a cartridge freezes skin; a pump does not") {
    CHECK(has(tell_latex(), "A cartridge freezes skin"));
    CHECK_FALSE(has(tell_latex({"kit=[\"tube\", \"pump\"]"}), "freezes skin"));
}

TEST_CASE("without a kit a brief teaches no repair") {
    const std::string text = tell_latex({"kit=[]", "rider.repair=cannot"});
    CHECK(has(text, "CARRY: Nothing: a flat ends the race."));
    CHECK_FALSE(has(text, "Find what made the hole"));
    CHECK_FALSE(has(text, "Practise one rear change"));
    CHECK(has(tell_latex(), "Practise one rear change"));
    CHECK(has(text, "Do not ride on a flat rim"));
}

TEST_CASE("who does not repair is told that a flat ends the race") {
    const std::string text = tell_latex({"rider.repair=cannot"});
    CHECK(has(text, "CARRY: You do not repair: a flat that does not seal ends the race"));
    CHECK_FALSE(has(text, "An inflator that you have used"));
    CHECK_FALSE(has(tell_latex(), "You do not repair"));
}

TEST_CASE("officials are named only where they may come") {
    CHECK_FALSE(has(tell_latex(), "wait for the officials"));
    CHECK(has(tell_latex({"repair.help=officials"}), "wait for the officials"));
}

TEST_CASE("rough stretches come with their kilometres, rain with its line") {
    CHECK(has(tell_latex(), "km 31.4-33.0, Old quarry: brake before it, not in it."));
    CHECK(has(tell_latex(), "Wet roads"));
    CHECK_FALSE(has(tell_latex({"weather.rain=5 %"}), "Wet roads"));
}

TEST_CASE("every brief keeps the cautions that hold for all") {
    for (const std::string& text : {tell_latex(), tell_first({"kit=[]"})}) {
        CHECK(has(text, "helmet stays fastened"));
        CHECK(has(text, "hookless rims: never above 5 bar, 72 psi"));
        CHECK(has(text, "Take your rubbish with you"));
        CHECK(has(text, "No first ride on fresh tyres or tubes down a fast descent"));
        CHECK(has(text, "no rate was ever published"));
    }
}

TEST_CASE("what was stated is no longer called a usual value") {
    CHECK(has(tell_latex(), "how often you flat in training"));
    CHECK_FALSE(has(tell_latex({"flats.training=1 per 3000 km"}),
                    "how often you flat in training"));
}

TEST_CASE("what would change the advice: its sentences, cleaned, or no block") {
    const Scenario scenario = read_brief_scenario();
    const auto list_turns = [&](const std::vector<std::string>& turns) {
        std::vector<std::vector<std::string>> found;
        for (const BriefBlock& block :
             make_brief_content(invent_findings(), scenario.model(),
                                plan_pumping(scenario), turns)
                 .blocks) {
            if (block.title == "CHANGES THE ADVICE") found.push_back(block.lines);
        }
        return found;
    };
    CHECK(list_turns({}).empty());
    const auto told = list_turns({"Butyl if it rains.", "Latex if\nit is \x01 dry."});
    REQUIRE(told.size() == 1);
    REQUIRE(told[0].size() == 2);
    CHECK(told[0][0] == "Butyl if it rains.");
    CHECK(told[0][1].find_first_of("\n\x01") == std::string::npos);
}

#include "publish/pages/check_page.h"

#include <algorithm>

#include "publish/pages/text.h"
#include "scenario/model.h"
#include "support/catch.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;

namespace {

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

CheckFacts invent_facts() {
    CheckFacts facts;
    facts.name = "Three Herons Middle";
    facts.fingerprint = "0123abcd";
    facts.setups = {{"Butyl (on now)", "race 28 mm, butyl", "tube", {}},
                    {"Latex", "race 28 mm, latex", "tube", {"latex on a long descent"}}};
    facts.warnings = {{{"race.toml", 5, 1}, "no rim limit", "write one", {}}};
    facts.values = {{"rider.power",
                     "power",
                     "200 W",
                     "189 to 212",
                     "changes each day",
                     Origin::kStated,
                     "stated",
                     {}},
                    {"flats.wet_factor",
                     "flat rate wet / dry",
                     "1.7",
                     "1.1 to 3",
                     "not known",
                     Origin::kAssumption,
                     "assumption",
                     {}},
                    {"rider.drivetrain",
                     "drivetrain efficiency",
                     "97.6 %",
                     "",
                     "certain",
                     Origin::kPublished,
                     "Martin et al. 1998",
                     {}}};
    facts.safety = {"Course rules come first."};
    return facts;
}

scenario::Model invent_model() {
    scenario::Model model;
    model.tyres.resize(2);
    model.tyres[0].name = "race 28 mm";
    model.tyres[0].most_pa = 6.5e5;
    model.tyres[1].name = "never ridden";
    model.inners.resize(2);
    model.inners[1].kind = scenario::InnerKind::kSealant;
    model.setups.resize(1);
    model.setups[0].kit.cartridge_kg.clear();
    return model;
}

bool lists(const std::vector<std::string>& lines, const std::string& part) {
    return std::any_of(lines.begin(), lines.end(),
                       [&](const std::string& line) { return contains(line, part); });
}

}  // namespace

TEST_CASE("values stand under where they come from, the user's own first") {
    const std::string page = lay_check_page(invent_facts(), {});
    const std::size_t stated = page.find("AS YOU STATED");
    const std::size_t published = page.find("DEFAULTS FROM PUBLISHED");
    const std::size_t assumed = page.find("DEFAULTS THAT ARE OUR ASSUMPTIONS");
    REQUIRE(assumed != std::string::npos);
    CHECK(stated < page.find("200 W"));
    CHECK(page.find("200 W") < published);
    CHECK(published < page.find("97.6 %"));
    CHECK(page.find("97.6 %") < assumed);
    CHECK(assumed < page.find("flats.wet_factor, not known"));
    CHECK(contains(page, "189 to 212"));
    CHECK(contains(page, "Martin et al. 1998"));
    CHECK_FALSE(contains(page, "DEFAULTS FROM COMMON PRACTICE"));
}

TEST_CASE("setups, doubts and cautions are all there") {
    const std::string page = lay_check_page(invent_facts(), {});
    CHECK(contains(page, "CAUTION latex on a long descent"));
    CHECK(contains(page, "race.toml:5:1: no rim limit -> write one"));
    CHECK(contains(page, "Course rules come first."));
    CHECK(contains(page, "0123abcd"));
}

TEST_CASE("the check page keeps 80 columns whatever the texts") {
    const std::string endless(300, 'W');
    CheckFacts facts = invent_facts();
    facts.name = endless;
    facts.setups.push_back({endless, endless, endless, {endless}});
    facts.warnings.push_back({{endless, 1, 1}, endless, endless, Severity::kWarning});
    facts.values.push_back({endless,
                            endless,
                            endless,
                            endless,
                            "not known",
                            Origin::kAssumption,
                            endless,
                            {}});
    facts.values.push_back({"short.key",
                            std::string(37, 'l'),
                            std::string(20, 'v'),
                            "",
                            "certain",
                            Origin::kAssumption,
                            "assumption",
                            {}});
    facts.safety.push_back(endless);
    for (const std::string& line : test::split_lines(lay_check_page(facts, {}))) {
        CHECK(measure_width(line) <= 80);
    }
}

TEST_CASE("safety facts appear where they apply") {
    scenario::Model model = invent_model();
    std::vector<std::string> safety = list_safety(model);
    CHECK(lists(safety, "race 28 mm: at most 94 psi (6.5 bar)"));
    CHECK_FALSE(lists(safety, "never ridden"));
    CHECK_FALSE(lists(safety, "cartridge"));
    CHECK(lists(safety, "qualified mechanic come first"));

    model.setups[0].kit.cartridge_kg.assign(2, 0.016);
    CHECK(lists(list_safety(model), "freezes skin"));
    CHECK_FALSE(lists(list_safety(model), "sealants"));
    model.setups[0].wheels[1].inner = 1;
    CHECK(lists(list_safety(model), "sealants"));
    model.setups[0].kit.pump = scenario::Pump::kFrame;
    CHECK_FALSE(lists(list_safety(model), "freezes skin"));

    model.tyres[0].most_pa.reset();
    CHECK(lists(list_safety(model), "no pressure limit given, so none was checked"));
}

TEST_CASE("with weights, the value that moves the answer most comes first") {
    CheckFacts facts = invent_facts();
    facts.against = "Butyl (on now)";
    facts.weights = {{"rider.power", 3.0, 1, 451.0}, {"flats.wet_factor", -64.0, 1, 4.0}};
    const std::string page = lay_check_page(facts, {});
    const auto wet = page.find("flat rate wet / dry"), power = page.find("rider.power");
    REQUIRE(wet != std::string::npos);
    REQUIRE(power != std::string::npos);
    CHECK(wet < power);
    CHECK(contains(page, "1.7 (1.1 to 3)      1:04      0:04"));
    CHECK(contains(page, "7:31"));
    CHECK(contains(page, "drivetrain efficiency"));
    CHECK_FALSE(contains(page, "HARDLY MOVES ANYTHING"));
}

TEST_CASE("a value that moves less than a second is named apart") {
    CheckFacts facts = invent_facts();
    facts.weights = {{"rider.power", 3.0, 1, 451.0}, {"flats.wet_factor", 0.4, 1, 0.2}};
    const std::string page = lay_check_page(facts, {});
    CHECK(page.find("HARDLY MOVES ANYTHING") < page.find("flat rate wet / dry"));
}

// What a brief tells to pump is what pump.csv holds.
#include "publish/brief/pump.h"

#include <cmath>
#include <string>

#include "flattail/preparation.h"
#include "support/catch.h"
#include "unit/publish/brief/brief_scenario.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;
using namespace flattail::test;

TEST_CASE("a brief pumps as the plan does, front before rear") {
    const Scenario scenario = read_brief_scenario();
    const PumpPlan plan = plan_pumping(scenario);
    const BriefContent content = make_content(invent_findings(), scenario);
    REQUIRE(plan.setups.at(1).name == "Latex");
    REQUIRE(content.pump.columns.size() == plan.temperatures_k.size());
    REQUIRE(content.pump.rows.size() == 2);
    for (std::size_t i = 0; i < plan.temperatures_k.size(); ++i) {
        const double front_pa = plan.setups[1].wheels[0].dry[i].gauge_pa;
        const double rear_pa = plan.setups[1].wheels[1].dry[i].gauge_pa;
        const std::string expected =
            std::to_string(std::lround(front_pa / 6894.757)) + "/" +
            std::to_string(std::lround(rear_pa / 6894.757)) + " psi, ";
        CHECK(content.pump.rows[0].cells[i].find(expected) == 0);
        CHECK(content.pump.columns[i] ==
              std::to_string(std::lround(plan.temperatures_k[i] - 273.15)) + " C");
    }
    CHECK(content.pump.title.find("PUMP Sunday 0") == 0);
}

TEST_CASE("without limits a brief gives no pressure to pump and says why") {
    const Scenario scenario =
        read_brief_scenario({"setup.Butyl (on now).tyre=race 30 mm"});
    const BriefContent content = make_content(invent_findings(), scenario);
    CHECK(content.pump.columns.empty());
    CHECK(content.pump.rows.empty());
    REQUIRE_FALSE(content.pump.lines.empty());
    CHECK(content.pump.lines.back().find("No table: the limits") == 0);
}

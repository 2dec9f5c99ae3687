// What the page of `why` shows of other pressures and kits, and what it leaves out.
#include "publish/why/variants_section.h"

#include <sstream>

#include "flattail/why.h"
#include "support/catch.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::test;

namespace {

VariantRow invent_row(Varied varied, const std::string& words, double typical_s,
                      double bad_s) {
    VariantRow row;
    row.varied = varied;
    row.words = words;
    row.typical_s = {9300 + typical_s, 1};
    row.bad_days_s = {10200 + bad_s, 5};
    row.typical_change_s = {typical_s, .1};
    row.bad_days_change_s = {bad_s, 1};
    row.average_change_s = {typical_s, .1};
    return row;
}

// Invented figures.
WhyFindings invent_why() {
    WhyFindings why;
    why.race = invent_findings();
    why.variants.setup = 1;
    why.variants.races = 32768;
    why.variants.rows = {invent_row(Varied::kNothing, "as it is", 0, 0),
                         invent_row(Varied::kPressure, "5 psi (0.3 bar) less", 3.2, -12),
                         invent_row(Varied::kKit, "with a boot", .1, -72),
                         invent_row(Varied::kKit, "one tube less", -1.4, 334)};
    return why;
}

std::string lay(const WhyFindings& why) {
    std::string page;
    for (const std::string& line : publish::lay_variants(why, {})) page += line + '\n';
    return page;
}

bool says(const std::string& page, const std::string& part) {
    return page.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("variants are told by what they change, best on average first") {
    const std::string page = lay(invent_why());
    CHECK(says(page, "as it is"));
    CHECK(says(page, "+3.2 s"));
    CHECK(says(page, "-1:12"));
    CHECK(page.find("one tube less") < page.find("with a boot"));
    CHECK(page.find("with a boot") < page.find("5 psi (0.3 bar) less"));
    CHECK_FALSE(says(page, "beaten"));
    CHECK_FALSE(says(page, "ruled out"));
}

TEST_CASE("what is beaten on both counts or breaks a rule is counted, not shown") {
    WhyFindings why = invent_why();
    why.variants.rows[1].beaten_by = "with a boot";
    why.variants.rows[3].ruled_out = "carries less than the minimum kit: tube short";
    const std::string page = lay(why);
    CHECK_FALSE(says(page, "5 psi (0.3 bar) less"));
    CHECK_FALSE(says(page, "one tube less"));
    CHECK(says(page, "with a boot"));
    CHECK(says(page, "1 beaten on both counts"));
    CHECK(says(page, "1 ruled out"));
}

TEST_CASE("a setup that is beaten as it is says by what") {
    WhyFindings why = invent_why();
    CHECK_FALSE(says(lay(why), "As it is, it is beaten"));
    why.variants.rows[0].beaten_by = "with a boot";
    CHECK(says(lay(why), "beaten on both counts by"));
}

TEST_CASE("a change that the days cannot tell from nothing is not given a figure") {
    WhyFindings why = invent_why();
    why.variants.rows[1].typical_change_s = {.2, .15};
    CHECK(says(lay(why), "~0"));
    why.variants.rows[1].typical_change_s = {.2, .05};
    CHECK(says(lay(why), "+0.2 s"));
}

TEST_CASE("no more than six variants are shown, in eighty columns") {
    WhyFindings why = invent_why();
    for (int i = 0; i < 9; ++i) {
        why.variants.rows.push_back(invent_row(
            Varied::kKit, "with a very long thing of the number " + std::to_string(i),
            10 + i, -10));
    }
    const std::string page = lay(why);
    CHECK(says(page, "of the number 2"));
    CHECK_FALSE(says(page, "of the number 3"));
    CHECK(says(page, "6 more"));
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
}

TEST_CASE("without limits of tyre and rim the page says why no pressure is tried") {
    WhyFindings why = invent_why();
    CHECK_FALSE(says(lay(why), "limits of tyre"));
    why.variants.has_limits = false;
    CHECK(says(lay(why), "limits of tyre"));
}

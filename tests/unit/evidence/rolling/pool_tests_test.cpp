#include "evidence/rolling/pool_tests.h"

#include <algorithm>
#include <cmath>

#include "input/text/text_file.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::evidence;

namespace {

const std::string kHeader =
    "source,kind,product,method,speed_km_h,load_kg,pressure_bar,temperature_c,"
    "drum_diameter_m,watts,per,spread,runs\n";

std::string make_line(const std::string& source, const std::string& kind,
                      const std::string& product, const std::string& watts) {
    return source + "," + kind + "," + product + ",drum,40,42.5,6.5,22,1.2," + watts +
           ",tyre,0.3,3\n";
}

// Two laboratories that agree about latex, one of which also tested plastic; a maker
// that praises its plastic.
std::string make_text() {
    return kHeader + make_line("North", "independent", "butyl", "20") +
           make_line("North", "independent", "latex", "17.5") +
           make_line("North", "independent", "plastic", "18.5") +
           make_line("South", "independent", "butyl", "22") +
           make_line("South", "independent", "latex", "19.3") +
           make_line("Works", "maker", "butyl", "21") +
           make_line("Works", "maker", "plastic", "16");
}

RollingEvidence pool(const std::string& text, base::ProblemList& problems,
                     const RollingOptions& options = {}) {
    const auto rows = read_rolling_tests_text(text, "tests.csv", problems);
    if (problems.has_errors()) return {};
    return pool_rows(rows, options, {"tests.csv", 0, 0}, problems);
}

RollingEvidence pool(const std::string& text, const RollingOptions& options = {}) {
    base::ProblemList problems;
    RollingEvidence evidence = pool(text, problems, options);
    problems.throw_if_errors();
    return evidence;
}

// What a user is told, one problem a line.
std::string tell(const std::string& text, const RollingOptions& options = {}) {
    base::ProblemList problems;
    pool(text, problems, options);
    std::string told;
    for (const Problem& problem : problems.all()) told += format_problem(problem) + "\n";
    return told;
}

std::string warn(const RollingEvidence& evidence) {
    std::string told;
    for (const Problem& problem : evidence.warnings) told += problem.what + "\n";
    return told;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

double change_of(const RollingEvidence& evidence, const std::string& product) {
    for (std::size_t p = 0; p < evidence.products.size(); ++p) {
        if (evidence.products[p].name == product) return evidence.pool.change[p];
    }
    return NAN;
}

}  // namespace

TEST_CASE("the product that most laboratories tested is compared with") {
    const RollingEvidence evidence = pool(make_text());
    CHECK(evidence.against == "butyl");
    CHECK(evidence.laboratories == std::vector<std::string>{"North", "South", "Works"});
    REQUIRE(evidence.products.size() == 2);
    CHECK(evidence.products[0].name == "latex");
    CHECK(evidence.products[0].laboratories == 2);
    CHECK(evidence.products[1].tests == 2);
}

// 2.5 and 2.7 W of a tyre at 40 km/h and 42.5 kg, on a drum of 1.2 m at 6.5 bar and 22 C,
// by hand: x .798 / 4631 N m/s x (6.5/5)^.477 / 1.0246.
TEST_CASE("a difference in watts comes out as the coefficient worked out by hand") {
    const double by_hand = -2.6 / (42.5 * 9.80665 * 40 / 3.6) *
                           std::sqrt(.6 / (.6 + .339)) * std::pow(1.3, .477) *
                           (1 + .008 * -3);
    const RollingEvidence evidence = pool(make_text());
    CHECK(evidence.products[0].classical.mean == Approx(by_hand).epsilon(.01));
    CHECK(change_of(evidence, "latex") == Approx(by_hand).margin(.00008));
}

// Without makers nothing depends on the product compared with, so the same difference
// comes out whichever it is.
TEST_CASE("the covariance of the pool gives the sd of every difference") {
    RollingOptions options;
    options.makers = MakerRows::kLeftOut;
    const RollingPool one = pool(make_text(), options).pool;
    options.against = "plastic";
    const RollingEvidence other = pool(make_text(), options);
    REQUIRE(other.products[1].name == "latex");
    const double variance = one.covariance[0] + one.covariance[3] - 2 * one.covariance[1];
    CHECK(std::sqrt(variance) == Approx(other.pool.sd[1]).epsilon(1e-8));
    CHECK(one.change[0] - one.change[1] == Approx(other.pool.change[1]).epsilon(1e-8));
    CHECK(one.sd[0] == Approx(std::sqrt(one.covariance[0])).epsilon(1e-12));
}

TEST_CASE("makers count least when left out and most when taken as stated") {
    const RollingEvidence evidence = pool(make_text());
    REQUIRE(evidence.ways.size() == 3);
    const auto plastic = [&](int way) {
        return evidence.ways[static_cast<std::size_t>(way)].change[1];
    };
    CHECK(plastic(2) < plastic(1));
    CHECK(plastic(1) < 0.0);
    RollingOptions options;
    options.makers = MakerRows::kAsStated;
    CHECK(change_of(pool(make_text(), options), "plastic") == plastic(2));
    options.makers = MakerRows::kLeftOut;
    CHECK(change_of(pool(make_text(), options), "plastic") == plastic(0));
}

TEST_CASE("a maker repeating its own test makes it no truer") {
    std::string repeated = make_text();
    for (int i = 0; i < 30; ++i) repeated += make_line("Works", "maker", "plastic", "16");
    const RollingEvidence once = pool(make_text()), often = pool(repeated);
    CHECK(std::abs(change_of(once, "plastic") - change_of(often, "plastic")) < 3e-5);
}

TEST_CASE("a test of a pair written as of one tyre stands out, and stays in use") {
    std::string text = make_text();
    for (const char* lab : {"East", "West"}) {
        text += make_line(lab, "independent", "butyl", "20.5");
        text += make_line(lab, "independent", "latex", "17.9");
        text += make_line(lab, "independent", "plastic", "18.8");
    }
    const RollingEvidence sound = pool(text);
    for (const RollingTest& test : sound.tests) {
        CAPTURE(test.source, test.product, test.score);
        CHECK_FALSE(test.stands_out);
    }
    text += make_line("West", "independent", "latex", "36");
    const RollingEvidence spoilt = pool(text);
    const RollingTest& last = spoilt.tests.back();
    CHECK(last.stands_out);
    CHECK(last.used);
    CHECK(contains(last.note, "higher than the other tests let expect; twice"));
}

TEST_CASE("leaving a laboratory out gives the pool of the others") {
    const RollingEvidence evidence = pool(make_text());
    const auto& found = evidence.products[0].found;
    REQUIRE(found.size() == 2);
    CHECK(found[1].laboratory == "South");
    std::string others = make_text();
    const auto at = others.find("South");
    others.erase(at, others.find("Works") - at);
    CHECK(found[1].without_it == Approx(change_of(pool(others), "latex")).epsilon(1e-9));
}

TEST_CASE("tests that nothing joins to the others are listed with the reason") {
    std::string text = make_text() + make_line("Far", "independent", "cotton", "15");
    text += make_line("Apart", "independent", "silk", "15");
    text += make_line("Apart", "independent", "wool", "16");
    const RollingEvidence evidence = pool(text);
    const auto note = [&](std::size_t i) {
        CHECK_FALSE(evidence.tests[i].used);
        return evidence.tests[i].note;
    };
    CHECK(note(7) == "nothing was tested beside it in the same way: no difference");
    CHECK(note(8) == "no laboratory joins it to butyl");
    CHECK(evidence.products.size() == 2);
}

TEST_CASE("a spreadsheet with semicolons, decimal commas, BOM and CRLF reads alike") {
    std::string text = make_text();
    std::replace(text.begin(), text.end(), ',', ';');
    std::replace(text.begin(), text.end(), '.', ',');
    std::string foreign = "\xEF\xBB\xBF";
    for (const char c : text)
        foreign += c == '\n' ? std::string("\r\n") : std::string(1, c);
    const RollingEvidence a = pool(make_text()), b = pool(foreign);
    CHECK(a.pool.change == b.pool.change);
    CHECK(a.pool.covariance == b.pool.covariance);
}

TEST_CASE("thin evidence is pooled with a stated fallback") {
    SECTION("one laboratory") {
        const std::string text = kHeader + make_line("North", "independent", "a", "20") +
                                 make_line("North", "independent", "b", "18");
        CHECK(contains(warn(pool(text)), "one laboratory only"));
    }
    SECTION("makers alone cannot be left out") {
        const std::string text = kHeader + make_line("Works", "maker", "a", "20") +
                                 make_line("Works", "maker", "b", "18");
        RollingOptions options;
        options.makers = MakerRows::kLeftOut;
        const RollingEvidence evidence = pool(text, options);
        CHECK(evidence.options.makers == MakerRows::kDiscounted);
        CHECK(contains(warn(evidence), "tested by makers: discounted, not left out"));
        CHECK(contains(warn(evidence), "makers' tests only"));
    }
    SECTION("no temperature, no spread") {
        std::string text = replaced(make_text(), ",22,1.2,20,tyre,0.3", ",,1.2,20,tyre,");
        const std::string told = warn(pool(text));
        CHECK(contains(told, "1 of 7 tests state no temperature: 20 C assumed"));
        CHECK(contains(told, "1 of 7 tests state no spread: 3 % of a run assumed"));
    }
}

TEST_CASE("a row that says too little is left out with its reason") {
    const auto note = [](const std::string& from, const std::string& to) {
        const RollingEvidence evidence = pool(replaced(make_text(), from, to));
        const auto row = std::find_if(evidence.tests.begin(), evidence.tests.end(),
                                      [](const RollingTest& t) { return !t.used; });
        return row == evidence.tests.end() ? std::string() : row->note;
    };
    CHECK(note("40,42.5,6.5", ",42.5,6.5") == "watts without a speed");
    CHECK(note("40,42.5,6.5", "40,,6.5") == "watts without a load");
    CHECK(note("40,42.5,6.5", "40,42.5,") == "no pressure");
    CHECK(note("22,1.2,", "22,,") == "a drum without its diameter");
    CHECK(note(",20,tyre,", ",,tyre,") == "neither watts nor crr is stated");
    CHECK(contains(note(",20,tyre,", ",390,tyre,"), "no road tyre"));
}

TEST_CASE("each mistake in a file of tests is named with its place and its remedy") {
    const auto told = [](const std::string& from, const std::string& to) {
        return tell(replaced(make_text(), from, to));
    };
    CHECK(told(",20,tyre", ",-20,tyre") ==
          "tests.csv:2:49: watts is -20 W, outside 0.1 to 400 W -> correct the cell, or "
          "leave it empty\n");
    CHECK(contains(told(",20,tyre", ",twenty,tyre"), "tests.csv:2:49: watts: "));
    CHECK(contains(told(",20,tyre", ",nan,tyre"), "tests.csv:2:49: watts: "));
    CHECK(contains(told(",20,tyre", ",20,"), "per is missing: watts of one tyre"));
    CHECK(contains(told(",20,tyre", ",20,wheel"), "per cannot be \"wheel\""));
    CHECK(contains(told("independent", "honest"), "kind cannot be \"honest\""));
    CHECK(contains(told("independent", ""), "kind: the cell is empty"));
    CHECK(contains(told("drum,", "rollers,"), "method cannot be \"rollers\""));
    CHECK(contains(told("North", ""), "source: the cell is empty"));
    CHECK(contains(told("butyl", ""), "product: the cell is empty"));
    CHECK(contains(told("40,42.5", "400,42.5"), "speed is 400 km/h, outside 3 to 120"));
    CHECK(contains(told("42.5", "4250"), "load is 4250 kg, outside 5 to 300 kg"));
    CHECK(contains(told("6.5", "95"), "pressure is 95 bar, outside 1 to 16 bar"));
    CHECK(contains(told("22", "295"), "temperature is 295 C, outside -20 to 60 C"));
    CHECK(contains(told("1.2", "1200"), "drum_diameter is 1200 m, outside 0.2 to 10 m"));
    CHECK(contains(told("0.3,3", "-0.3,3"), "spread is -0.3, outside 0 to 100"));
    CHECK(contains(told("0.3,3", "0.3,0"), "runs is 0, outside 1 to 10000"));
    CHECK(contains(told("0.3,3", "0.3,2.5"), "runs is no whole number"));
    CHECK(contains(told("load_kg", "load"), "column load has no unit"));
    CHECK(contains(told("load_kg", "load_bar"), "unit bar does not fit"));
    CHECK(contains(told("source", "labor"), "has no column source"));
    CHECK(contains(told("spread", "spraed"), "rename it to spread"));
    CHECK(contains(told(",0.3,3", ",0.3"), "tests.csv:2"));
}

TEST_CASE("a file that cannot be compared says what is missing") {
    CHECK(contains(tell(""), "tests.csv"));
    CHECK(contains(tell(kHeader), "tests.csv"));
    CHECK(contains(tell(kHeader + make_line("North", "independent", "a", "20")),
                   "one usable test: nothing can be compared"));
    CHECK(contains(tell(kHeader + make_line("North", "independent", "a", "20") +
                        make_line("South", "independent", "b", "20")),
                   "2 usable tests, but none beside another product"));
    CHECK(contains(tell(kHeader + make_line("North", "independent", "a", "") +
                        make_line("North", "independent", "b", "")),
                   "no test could be converted: row 1 has neither watts nor crr"));
    RollingOptions options;
    options.against = "butil";
    CHECK(contains(tell(make_text(), options), "did you mean \"butyl\"?"));
    options = {};
    options.between_laboratories = -1.0;
    CHECK(contains(tell(make_text(), options), "between is -1, outside"));
    options = {};
    options.specimen_sd = 0.5;
    CHECK(contains(tell(make_text(), options), "specimen is 0.5, outside"));
}

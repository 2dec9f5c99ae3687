// The page and tables of pooled tests, made by hand.
#include <algorithm>
#include <sstream>

#include "flattail/evidence.h"
#include "publish/pages/text.h"
#include "support/catch.h"

using namespace flattail;

namespace {

RollingPool make_pool(MakerRows makers) {
    RollingPool pool;
    pool.makers = makers;
    pool.known = {true, makers != MakerRows::kLeftOut};
    pool.change = {-0.0004, 0.0001};
    pool.sd = {0.0001, 0.0002};
    pool.covariance = {1e-8, 0.5e-8, 0.5e-8, 4e-8};
    pool.could_be = {{-0.00056, -0.00024}, {-0.00023, 0.00043}};
    pool.next_found = {{-0.0008, 0.0}, {-0.0005, 0.0007}};
    return pool;
}

RollingEvidence make_evidence() {
    RollingEvidence evidence;
    evidence.file = "bench/tests.csv";
    evidence.against = "Plain";
    evidence.laboratories = {"North", "South"};
    RollingTest test;
    test.place = {"bench/tests.csv", 2, 0};
    test.source = "North";
    test.product = "Swift \"A\"";
    test.by_maker = true;
    test.method = "drum";
    test.surface = "steel";
    test.used = true;
    test.crr = 0.0041;
    test.standard_error = 0.0001;
    test.note = "0.00200 higher than the other tests let expect";
    test.stands_out = true;
    evidence.tests = {test};
    ProductEvidence swift;
    swift.name = "Swift \"A\"";
    swift.tests = 4;
    swift.laboratories = 2;
    swift.found = {{"North", false, -0.0005, 0.0001, -0.0003}};
    swift.widths_m = {0.025};
    ProductEvidence slow;
    slow.name = "Slow";
    slow.tests = 1;
    slow.laboratories = 1;
    evidence.products = {swift, slow};
    for (const MakerRows makers :
         {MakerRows::kLeftOut, MakerRows::kDiscounted, MakerRows::kAsStated}) {
        evidence.ways.push_back(make_pool(makers));
    }
    evidence.pool = evidence.ways[1];
    return evidence;
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

int find_widest(const std::string& page) {
    int widest = 0;
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);) {
        widest = std::max(widest, publish::measure_width(line));
    }
    return widest;
}

}  // namespace

// -.0004 x 85 kg x 9.80665 m/s2 x 12.5 m/s = -4.17 W, by hand.
TEST_CASE("changes are told in watts of a pair, the fastest first") {
    const std::string page = write_evidence_page(make_evidence());
    CHECK(contains(page, "-4.2  -5.8 to -2.5   -8.3 to 0.0  -0.00040"));
    CHECK(page.find("Swift") < page.find("Slow"));
    CHECK(contains(page, "1 of them"));
    CHECK(contains(page, "STANDS OUT  line 2, North"));
    CHECK(contains(page, "no test"));
    CHECK(find_widest(page) <= 80);
}

TEST_CASE("names of any length and kind leave the page 80 columns wide") {
    RollingEvidence evidence = make_evidence();
    const std::string odd = "\xE8\xBD\xAE\xE8\x83\x8E\x1B[31m " + std::string(200, 'x');
    evidence.against = evidence.products[0].name = odd;
    evidence.products[0].found[0].laboratory = odd;
    evidence.tests[0].source = evidence.tests[0].product = odd;
    evidence.file = std::string(300, '/');
    const std::string page = write_evidence_page(evidence);
    CHECK_FALSE(contains(page, "\x1B"));
    CHECK(std::count(page.begin(), page.end(), '\n') > 20);
}

TEST_CASE("the library quotes what TOML would misread") {
    const std::string library = write_evidence_library(make_evidence());
    CHECK(
        contains(library, "name = \"Swift \\\"A\\\"\"\nchange = -0.0004\nsd = 0.0001\n"));
    CHECK(contains(library, "correlation = []"));
    CHECK(contains(library, "correlation = [0.25]"));
    CHECK(contains(library, "widths = [\"25 mm\"]"));
}

TEST_CASE("a product that only makers tested is not in a library without them") {
    RollingEvidence evidence = make_evidence();
    evidence.pool = evidence.ways[0];
    CHECK_FALSE(contains(write_evidence_library(evidence), "Slow"));
}

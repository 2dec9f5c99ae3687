#include "publish/pages/course_page.h"

#include <cmath>

#include "publish/pages/text.h"
#include "support/catch.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;

namespace {

constexpr int kAxis = 8;  // columns before the first block

// A road of 20 km whose height is a function of the share ridden.
template <class Height>
course::Course make_road(Height height_m) {
    course::Course road;
    road.length_m = 20000.0;
    for (int i = 0; i <= 1000; ++i) {
        course::Node node;
        node.distance_m = 20.0 * i;
        node.elevation_m = height_m(i / 1000.0);
        road.nodes.push_back(node);
    }
    road.pieces.resize(1000);
    for (course::Piece& piece : road.pieces) piece.length_m = 20.0;
    return road;
}

// Eighths of a character that one column of a profile is high.
int measure_column(const std::vector<std::string>& rows, int column) {
    int eighths = 0;
    for (const std::string& row : rows) {
        int at = 0;
        for (std::size_t byte = 0; byte < row.size(); ++at) {
            const bool is_block = static_cast<unsigned char>(row[byte]) == 0xE2;
            if (at == kAxis + column && is_block) {
                eighths += static_cast<unsigned char>(row[byte + 2]) - 0x80;
            }
            byte += is_block ? 3 : 1;
        }
    }
    return eighths;
}

}  // namespace

TEST_CASE("the profile rises with the road, to within half an eighth") {
    const auto road = make_road([](double share) { return 100.0 + 600.0 * share; });
    auto rows = draw_profile(road, 80, 6);
    CHECK(rows.back().find("20.0 km") != std::string::npos);
    CHECK(rows.front().find("696 m") == 1 + 1);  // mean of the last of 72 columns
    CHECK(rows[5].find("104 m") == 2);
    rows.pop_back();
    for (int column = 0; column < 72; ++column) {
        const double exact = 1.0 + column / 71.0 * 47.0;
        CHECK(std::abs(measure_column(rows, column) - exact) <= 0.5 + 1e-9);
    }
}

TEST_CASE("a flat road is drawn flat") {
    const auto rows =
        draw_profile(make_road([](double share) { return 20.0 + share; }), 80, 6);
    CHECK(rows.size() == 2);
    CHECK(rows[0].find("20 m") != std::string::npos);
}

TEST_CASE("every line of the course page keeps its width") {
    const auto road =
        make_road([](double share) { return 900.0 * std::sin(7.0 * share); });
    const std::string endless(300, 'W');
    CourseFacts facts{endless, {{endless, endless}, {"length", "20.0 km"}}, {}};
    facts.warnings = {{{endless, 1, 1}, endless, "", Severity::kWarning}};
    for (const int width : {80, 120}) {
        PageOptions options;
        options.width = width;
        for (const std::string& line :
             test::split_lines(lay_course_page(facts, road, options))) {
            CHECK(measure_width(line) <= width);
        }
    }
}

TEST_CASE("coarse roads and cobbles are marked where they lie") {
    auto road = make_road([](double) { return 0.0; });
    for (const std::string& row : draw_profile(road, 80, 6)) {
        CHECK(row.find("road") == std::string::npos);
    }
    for (std::size_t i = 0; i < 500; ++i)
        road.pieces[i].surface = course::Surface::kCoarse;
    for (std::size_t i = 990; i < 1000; ++i) {
        road.pieces[i].surface = course::Surface::kCobbles;
    }
    const auto rows = draw_profile(road, 80, 6);
    const std::string& marks = rows[1];
    CHECK(marks.substr(0, kAxis) == "   road ");
    CHECK(marks.substr(kAxis, 36) == std::string(36, '~'));
    CHECK(marks.substr(kAxis + 36) == std::string(35, ' ') + "#");
    CHECK(rows.back().find("# cobbles") != std::string::npos);
}

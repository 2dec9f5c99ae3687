#include "publish/pages/course_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/expects.h"
#include "publish/pages/page.h"
#include "publish/pages/text.h"
#include "publish/words.h"
#include "scenario/model.h"

namespace flattail::publish {

namespace {

using Lines = std::vector<std::string>;

constexpr int kRows = 6;
constexpr int kLevels = 8;  // of one block character
// Samples over which a column's mean is taken; more would not move a block.
constexpr int kSamples = 8;
// A course flatter than this is drawn flat rather than blown up to full height.
constexpr double kSmallestRange_m = 40.0;
constexpr int kAxisColumns = 8;  // "1,234 m "

double find_elevation(const course::Course& course, double distance_m) {
    const auto& nodes = course.nodes;
    const auto after = std::upper_bound(
        nodes.begin(), nodes.end(), distance_m,
        [](double d, const course::Node& node) { return d < node.distance_m; });
    if (after == nodes.begin()) return nodes.front().elevation_m;
    if (after == nodes.end()) return nodes.back().elevation_m;
    const course::Node& from = *(after - 1);
    const double share =
        (distance_m - from.distance_m) / (after->distance_m - from.distance_m);
    return from.elevation_m + share * (after->elevation_m - from.elevation_m);
}

std::vector<double> average_columns(const course::Course& course, int columns) {
    std::vector<double> means;
    for (int column = 0; column < columns; ++column) {
        double sum = 0.0;
        for (int i = 0; i < kSamples; ++i) {
            const double at = (column + (i + 0.5) / kSamples) / columns;
            sum += find_elevation(course, at * course.nodes.back().distance_m);
        }
        means.push_back(sum / kSamples);
    }
    return means;
}

// How many eighths of a character each column is high: 1 at the lowest point.
std::vector<int> scale_columns(const std::vector<double>& elevation_m, int rows) {
    const auto [low, high] = std::minmax_element(elevation_m.begin(), elevation_m.end());
    const double range_m = std::max(*high - *low, kSmallestRange_m);
    std::vector<int> eighths;
    for (const double z : elevation_m) {
        const double share = (z - *low) / range_m;
        eighths.push_back(1 +
                          static_cast<int>(std::lround(share * (rows * kLevels - 1))));
    }
    return eighths;
}

const char* draw_block(int eighths) {
    constexpr std::array<const char*, kLevels + 1> kBlocks{" ",      "\u2581", "\u2582",
                                                           "\u2583", "\u2584", "\u2585",
                                                           "\u2586", "\u2587", "\u2588"};
    return kBlocks[static_cast<std::size_t>(std::clamp(eighths, 0, kLevels))];
}

std::string label_elevation(double elevation_m) {
    return pad_start(format_count(std::llround(elevation_m)) + " m ", kAxisColumns);
}

std::string draw_axis(double length_m, int columns) {
    const std::string middle = fmt::format("{:.1f}", 0.5 * length_m / 1000.0);
    const std::string end = format_distance(length_m);
    const int half = columns / 2 + static_cast<int>(middle.size()) / 2;
    std::string line = pad_end("0", half - static_cast<int>(middle.size())) + middle;
    line = pad_end(line, columns - static_cast<int>(end.size())) + end;
    return std::string(static_cast<std::size_t>(kAxisColumns), ' ') + line;
}

// '~' where most of a column is coarse, '#' where it is cobbles; empty when none is.
std::string mark_surfaces(const course::Course& course, int columns) {
    std::string marks(static_cast<std::size_t>(columns), ' ');
    double from_m = 0.0;
    for (const course::Piece& piece : course.pieces) {
        const double middle_m = from_m + 0.5 * piece.length_m;
        from_m += piece.length_m;
        const bool is_cobbles = piece.surface == course::Surface::kCobbles;
        if (!is_cobbles && piece.surface != course::Surface::kCoarse) continue;
        const int column = std::clamp(
            static_cast<int>(middle_m / course.length_m * columns), 0, columns - 1);
        char& mark = marks[static_cast<std::size_t>(column)];
        if (is_cobbles) mark = '#';
        if (mark == ' ') mark = '~';
    }
    return marks.find_first_not_of(' ') == std::string::npos ? "" : marks;
}

}  // namespace

Lines draw_profile(const course::Course& course, int width, int rows) {
    FLATTAIL_EXPECTS(course.nodes.size() >= 2 && width > kAxisColumns && rows > 0);
    const int columns = width - kAxisColumns;
    const std::vector<double> elevation_m = average_columns(course, columns);
    const std::vector<int> eighths = scale_columns(elevation_m, rows);
    const auto [low, high] = std::minmax_element(elevation_m.begin(), elevation_m.end());
    // On a flat course the highest point is not in the top row.
    const int top_row = (*std::max_element(eighths.begin(), eighths.end()) - 1) / kLevels;
    Lines lines;
    for (int row = top_row; row >= 0; --row) {
        std::string line = row == top_row && *high - *low >= 1.0 ? label_elevation(*high)
                           : row == 0                            ? label_elevation(*low)
                                      : std::string(kAxisColumns, ' ');
        for (const int height : eighths) line += draw_block(height - row * kLevels);
        lines.push_back(std::move(line));
    }
    const std::string marks = mark_surfaces(course, columns);
    if (!marks.empty()) {
        std::string line = pad_start("road ", kAxisColumns) + marks;
        line.erase(line.find_last_not_of(' ') + 1);
        lines.push_back(std::move(line));
    }
    lines.push_back(draw_axis(course.length_m, columns));
    if (!marks.empty()) {
        lines.push_back(std::string(kAxisColumns, ' ') + "~ coarse road  # cobbles");
    }
    return lines;
}

std::string lay_course_page(const CourseFacts& facts, const course::Course& course,
                            const PageOptions& raw_options) {
    const PageOptions options = settle_options(raw_options);
    Lines page{paint(shorten_end(clean_line(facts.name), options.width), Ink::kStrong,
                     options.colour)};
    append_section(page, draw_profile(course, options.width, kRows));
    int label_width = 0;
    for (const CourseLine& line : facts.lines) {
        label_width = std::max(label_width, measure_width(clean_line(line.label)));
    }
    label_width = std::min(label_width, options.width / 2);
    Lines lines;
    for (const CourseLine& line : facts.lines) {
        const std::string label =
            pad_end(shorten_end(clean_line(line.label), label_width), label_width);
        const Lines wrapped = wrap(clean_line(line.value), options.width, label + "  ");
        lines.insert(lines.end(), wrapped.begin(), wrapped.end());
    }
    append_section(page, std::move(lines));
    Lines doubts;
    for (const Problem& problem : facts.warnings) {
        for (const std::string& line :
             wrap(clean_line(format_problem(problem)), options.width, "  - ")) {
            doubts.push_back(paint(line, Ink::kWarning, options.colour));
        }
    }
    if (!doubts.empty()) {
        doubts.insert(doubts.begin(), paint("DOUBTS", Ink::kStrong, options.colour));
    }
    append_section(page, std::move(doubts));
    return join_lines(page);
}

}  // namespace flattail::publish

namespace flattail {

std::string write_course_page(const Scenario& scenario, const PageOptions& options) {
    // Doubts about the course alone; those about setups stand on the check page.
    const course::Course& course = *scenario.model().course;
    return publish::lay_course_page(
        {scenario.name(), scenario.course_lines(), course.warnings}, course, options);
}

}  // namespace flattail

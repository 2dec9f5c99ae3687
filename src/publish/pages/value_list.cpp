#include "publish/pages/value_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "publish/pages/page.h"
#include "publish/pages/text.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

using Lines = std::vector<std::string>;

struct OriginGroup {
    Origin origin;
    const char* heading;
};

// The reader's own values first, then defaults by how much stands behind them.
constexpr std::array<OriginGroup, 5> kGroups{{
    {Origin::kStated, "AS YOU STATED"},
    {Origin::kFitted, "FITTED TO YOUR LOGS AND TESTS"},
    {Origin::kPublished, "DEFAULTS FROM PUBLISHED SOURCES"},
    {Origin::kCommonPractice, "DEFAULTS FROM COMMON PRACTICE"},
    {Origin::kAssumption, "DEFAULTS THAT ARE OUR ASSUMPTIONS: REPLACE WHAT YOU KNOW"},
}};

constexpr int kLabelColumns = 37;
constexpr int kValueColumns = 17;

// A column's text and at least one blank; what is too long pushes the rest along.
std::string fill_column(const std::string& text, int width) {
    return pad_end(text, width) + (measure_width(text) < width ? "" : "  ");
}

// What says no more than the heading above it is left out.
std::string describe_source(const UsedValue& value) {
    const bool is_plain = value.source == "common practice" ||
                          value.source == "assumption" || value.source == "stated";
    return is_plain ? "" : clean_line(value.source);
}

// Label, value and range; a value without a range has its key in that place.
void append_value(Lines& lines, const UsedValue& value, const PageOptions& options) {
    const std::string key = clean_line(value.name);
    const bool has_range = !value.range.empty();
    const std::string head =
        "  " + fill_column(clean_line(value.label.empty() ? value.name : value.label),
                           kLabelColumns);
    const std::string figures = fill_column(clean_line(value.value), kValueColumns) +
                                (has_range ? clean_line(value.range) : key);
    if (measure_width(head + figures) <= options.width) {
        lines.push_back(head + figures);
    } else {
        for (const std::string& line : wrap(head, options.width, "  ")) {
            lines.push_back(line);
        }
        for (const std::string& line : wrap(figures, options.width, "      ")) {
            lines.push_back(line);
        }
    }
    std::string rest = has_range ? key + ", " + value.kind : "";
    const std::string source = describe_source(value);
    if (!source.empty()) rest += (rest.empty() ? "" : "; ") + source;
    if (rest.empty()) return;
    for (const std::string& line : wrap(rest, options.width, "      ")) {
        lines.push_back(paint(line, Ink::kFaint, options.colour));
    }
}

// Values by how much stands behind them.
Lines lay_group(const std::vector<UsedValue>& values, const OriginGroup& group,
                const PageOptions& options) {
    Lines lines;
    for (const UsedValue& value : values) {
        if (value.origin != group.origin) continue;
        if (lines.empty()) {
            lines.push_back(paint(group.heading, Ink::kStrong, options.colour));
        }
        append_value(lines, value, options);
    }
    return lines;
}

// A value and how far it could move the answer.
struct Weighed {
    const UsedValue* value = nullptr;
    ValueWeight weight;
};

// Below this neither the difference nor the finish is worth a line of its own.
constexpr double kWorthDifference_s = 1.0;
constexpr double kWorthFinish_s = 5.0;

bool is_worth(const Weighed& w) {
    return std::abs(w.weight.difference_s) >= kWorthDifference_s ||
           std::abs(w.weight.finish_s) >= kWorthFinish_s;
}

std::vector<Weighed> sort_weighed(const CheckFacts& facts) {
    std::vector<Weighed> sorted;
    for (const UsedValue& value : facts.values) {
        const auto found =
            std::find_if(facts.weights.begin(), facts.weights.end(),
                         [&value](const ValueWeight& w) { return w.name == value.name; });
        if (found != facts.weights.end()) sorted.push_back({&value, *found});
    }
    std::stable_sort(
        sorted.begin(), sorted.end(), [](const Weighed& a, const Weighed& b) {
            return std::abs(a.weight.difference_s) > std::abs(b.weight.difference_s);
        });
    return sorted;
}

std::string name_origin(Origin origin) {
    switch (origin) {
        case Origin::kStated:
            return "as you stated";
        case Origin::kFitted:
            return "fitted to your logs and tests";
        case Origin::kPublished:
            return "published";
        case Origin::kCommonPractice:
            return "common practice";
        case Origin::kAssumption:
            break;
    }
    return "our assumption";
}

std::string write_moved(double moved_s) {
    const double rounded = std::round(std::abs(moved_s));
    return rounded < 1.0 ? "-" : format_duration(rounded);
}

constexpr int kMovedColumns = 10;

void append_weighed(Lines& lines, const Weighed& w, const PageOptions& options) {
    const int left = options.width - 2 * kMovedColumns - 2;
    const std::string label = clean_line(w.value->label);
    std::string range = clean_line(w.value->value);
    if (!w.value->range.empty()) range += " (" + clean_line(w.value->range) + ")";
    const std::string moved =
        pad_start(write_moved(w.weight.difference_s), kMovedColumns) +
        pad_start(write_moved(w.weight.finish_s), kMovedColumns);
    const bool fits = measure_width(label) + 2 + measure_width(range) <= left;
    const std::string head =
        fits ? pad_end(label, left - measure_width(range)) + range : label;
    lines.push_back("  " + pad_end(shorten_end(head, left), left) + moved);
    std::string rest = fits ? "" : range + "; ";
    const std::string source = describe_source(*w.value);
    rest += clean_line(w.value->name) + ", " + w.value->kind + "; " +
            (source.empty() ? name_origin(w.value->origin) : source);
    for (const std::string& line : wrap(rest, options.width, "      ")) {
        lines.push_back(paint(line, Ink::kFaint, options.colour));
    }
}

Lines lay_weighed(const std::vector<Weighed>& sorted, const std::string& against,
                  const PageOptions& options) {
    Lines lines{paint("WHAT IS NOT CERTAIN, WHAT MOVES THE ANSWER MOST FIRST",
                      Ink::kStrong, options.colour)};
    for (const std::string& line :
         wrap("MOVES says how far the average differs between the two ends of the range "
              "in brackets (9 in 10 lie between them): ADVANTAGE of a setup over " +
                  clean_line(against) + ", where it moves most, and FINISH of " +
                  clean_line(against) + ". What you know better, write into the file.",
              options.width, "  ")) {
        lines.push_back(line);
    }
    const int left = options.width - 2 * kMovedColumns;
    lines.push_back(pad_start("MOVES", options.width));
    lines.push_back(pad_end("", left) + pad_start("ADVANTAGE", kMovedColumns) +
                    pad_start("FINISH", kMovedColumns));
    for (const Weighed& w : sorted) {
        if (is_worth(w)) append_weighed(lines, w, options);
    }
    return lines;
}

Lines lay_small(const std::vector<Weighed>& sorted, const PageOptions& options) {
    Lines lines;
    for (const Weighed& w : sorted) {
        if (is_worth(w)) continue;
        if (lines.empty()) {
            lines.push_back(paint("NOT CERTAIN, HARDLY MOVES ANYTHING", Ink::kStrong,
                                  options.colour));
        }
        append_value(lines, *w.value, options);
    }
    return lines;
}

// Values that nobody stated and that are taken as certain, by origin.
std::vector<Lines> lay_certain(const CheckFacts& facts, const PageOptions& options) {
    std::vector<UsedValue> certain;
    for (const UsedValue& value : facts.values) {
        const bool is_weighed =
            std::any_of(facts.weights.begin(), facts.weights.end(),
                        [&value](const ValueWeight& w) { return w.name == value.name; });
        if (!is_weighed) certain.push_back(value);
    }
    std::vector<Lines> sections;
    for (const OriginGroup& group : kGroups) {
        sections.push_back(lay_group(certain, group, options));
    }
    return sections;
}

}  // namespace

std::vector<Lines> lay_values(const CheckFacts& facts, const PageOptions& options) {
    const std::vector<Weighed> sorted = sort_weighed(facts);
    if (sorted.empty()) return lay_certain(facts, options);
    std::vector<Lines> sections{lay_weighed(sorted, facts.against, options),
                                lay_small(sorted, options)};
    const std::vector<Lines> certain = lay_certain(facts, options);
    sections.insert(sections.end(), certain.begin(), certain.end());
    return sections;
}

}  // namespace flattail::publish

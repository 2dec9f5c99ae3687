#include "publish/why/variants_section.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "publish/pages/text.h"
#include "publish/pages/text_table.h"
#include "publish/why/names.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

using Lines = std::vector<std::string>;

constexpr std::size_t kMostVariants = 6;

// Riders who weigh a boot want tenths; what the days cannot tell from nothing is "~0".
std::string format_change(const Figure& change) {
    if (!is_told_apart(change)) return "~0";
    const double size = std::abs(change.value);
    if (size < 0.05) return change.value < 0.0 ? "-0.0 s" : "+0.0 s";
    if (size < 9.95) return fmt::format("{:+.1f} s", change.value);
    return format_difference(change.value);
}

bool is_kept(const VariantRow& row) {
    return row.varied != Varied::kNothing && row.ruled_out.empty() &&
           row.beaten_by.empty();
}

std::vector<const VariantRow*> choose_rows(const VariantFindings& found) {
    std::vector<const VariantRow*> kept;
    for (const VariantRow& row : found.rows) {
        if (is_kept(row)) kept.push_back(&row);
    }
    std::stable_sort(kept.begin(), kept.end(),
                     [](const VariantRow* a, const VariantRow* b) {
                         return a->average_change_s.value < b->average_change_s.value;
                     });
    if (kept.size() > kMostVariants) kept.resize(kMostVariants);
    return kept;
}

std::string count_rest(const VariantFindings& found, std::size_t shown) {
    std::size_t kept = 0, beaten = 0, ruled_out = 0;
    for (const VariantRow& row : found.rows) {
        if (row.varied == Varied::kNothing) continue;
        if (is_kept(row)) ++kept;
        if (!row.ruled_out.empty()) ++ruled_out;
        if (row.ruled_out.empty() && !row.beaten_by.empty()) ++beaten;
    }
    std::string rest;
    const auto add = [&](std::size_t count, const char* words) {
        if (count == 0) return;
        rest += fmt::format("{}{} {}", rest.empty() ? "" : ", ", count, words);
    };
    add(kept - shown, "more");
    add(beaten, "beaten on both counts");
    add(ruled_out, "ruled out");
    return rest.empty() ? "" : fmt::format(" In trade-off.csv: {}.", rest);
}

TextRow lay_as_it_is(const VariantRow& row) {
    return {"  ",
            row.words,
            {format_duration(row.typical_s.value), format_duration(row.bad_days_s.value),
             ""}};
}

TextRow lay_variant(const VariantRow& row) {
    return {"  ",
            clean_line(row.words),
            {format_change(row.typical_change_s), format_change(row.bad_days_change_s),
             format_change(row.average_change_s)}};
}

}  // namespace

Lines lay_variants(const WhyFindings& why, const PageOptions& options) {
    const VariantFindings& found = why.variants;
    if (found.setup < 0 || found.rows.empty()) return {};
    const std::vector<const VariantRow*> shown = choose_rows(found);
    TextTable table;
    table.corner = "THE ADVISED SETUP OTHERWISE";
    table.columns = {{{"TYPICAL", "DAY"}}, {{"WORST", "1 IN 20"}}, {{"ON", "AVERAGE"}}};
    table.rows.push_back(lay_as_it_is(found.rows.front()));
    for (const VariantRow* row : shown) table.rows.push_back(lay_variant(*row));
    Lines lines = lay_table(table, options);
    std::string note = fmt::format(
        "{} with other pressures (both wheels) or another kit, on the same {} race days. "
        "Minus: faster than as it is; ~0: too close to tell.",
        clean_line(name_setup(why, found.setup)), format_count(found.races));
    const std::string& better = found.rows.front().beaten_by;
    if (!better.empty()) {
        note += fmt::format(" As it is, it is beaten on both counts by \"{}\".",
                            clean_line(better));
    }
    note += count_rest(found, shown.size());
    if (!found.has_limits) {
        note +=
            " No other pressure is tried while the limits of tyre and rim are not "
            "stated.";
    }
    for (const std::string& line : wrap(note, options.width, "  ")) {
        lines.push_back(paint(line, Ink::kFaint, options.colour));
    }
    return lines;
}

}  // namespace flattail::publish

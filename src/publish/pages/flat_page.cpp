// A log of flats on one terminal page.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flattail/flat_log.h"
#include "publish/pages/text.h"
#include "publish/pages/text_table.h"
#include "publish/words.h"

namespace flattail {

namespace {

using namespace publish;
using Lines = std::vector<std::string>;

constexpr double kPerThousandKm = 1e6;

std::string write_km(double distance_m) {
    return format_count(static_cast<std::int64_t>(std::llround(distance_m / 1000.0))) +
           " km";
}

std::string count(std::int64_t number, const std::string& one, const std::string& many) {
    return format_count(number) + ' ' + (number == 1 ? one : many);
}

// Two figures are what a handful of flats is worth.
std::string write_two_figures(double value) {
    if (value <= 0.0) return "0";
    if (value >= 100.0) {
        return format_count(static_cast<std::int64_t>(std::llround(value)));
    }
    return fmt::format("{:.{}f}", value, value < 0.095 ? 3 : value < 9.95 ? 2 : 0);
}

std::string write_range(double low, double high, double scale = 1.0) {
    if (std::isinf(high) && low <= 0.0) return "anything";
    if (std::isinf(high)) return "over " + write_two_figures(low * scale);
    return write_two_figures(low * scale) + " to " + write_two_figures(high * scale);
}

// 61,000 rather than 61,234: two figures of a plan.
std::string write_more(double more_m) {
    if (std::isinf(more_m)) return "over a million km";
    if (more_m <= 0.0) return "it can now";
    const double km = more_m / 1000.0;
    const double step = std::pow(10.0, std::max(std::floor(std::log10(km)) - 1.0, 0.0));
    return write_km(std::ceil(km / step) * step * 1000.0) + " on each";
}

void append(Lines& lines, const Lines& more) {
    lines.insert(lines.end(), more.begin(), more.end());
}

Lines lay_title(const FlatLog& log, const PageOptions& options) {
    Lines lines =
        wrap(fmt::format("Flats in {}: {}, {}, {} on {}, {} to {}", clean_line(log.file),
                         write_km(log.distance_m), count(log.rides, "ride", "rides"),
                         count(log.flats, "flat", "flats"),
                         count(log.days_with_flats, "day", "days"), log.first_date,
                         log.last_date),
             options.width);
    for (std::string& line : lines) line = paint(line, Ink::kStrong, options.colour);
    lines.emplace_back();
    return lines;
}

Lines lay_rates(const FlatLog& log, const PageOptions& options) {
    TextTable table;
    table.corner = "IN TRAINING, ON";
    table.columns = {{{"RIDDEN"}},
                     {{"FLATS"}},
                     {{"COUNT", "ALONE"}},
                     {{"BEST", "GUESS"}},
                     {{"COULD BE", "(9 IN 10)"}},
                     {{"A FLAT IN", "THE RACE"}}};
    for (const FlatGroup& group : log.groups) {
        TextRow row;
        row.mark = "  ";
        row.name = clean_line(group.name);
        row.cells = {
            write_km(group.distance_m),
            format_count(group.flats),
            write_range(group.exact_per_m.low, group.exact_per_m.high, kPerThousandKm),
            write_two_figures(group.rate_per_m.mid * kPerThousandKm),
            write_range(group.rate_per_m.low, group.rate_per_m.high, kPerThousandKm),
            format_one_in(group.flat_in_race)};
        table.rows.push_back(std::move(row));
    }
    Lines lines = lay_table(table, options);
    append(lines,
           wrap("COUNT ALONE and what follows: flats per 1,000 km, dry ordinary roads, "
                "race tyre. COUNT ALONE holds 19 times in 20 and knows these flats only. "
                "BEST GUESS and COULD BE also know that 1 in 2,500 km is usual, and take "
                "inners as alike until flats say otherwise. THE RACE: " +
                    write_km(log.options.race_m) + ", dry.",
                options.width, "  "));
    lines.emplace_back();
    return lines;
}

Lines lay_comparison(const FlatLog& log, const PageOptions& options) {
    if (log.groups.size() < 2) return {};
    const std::string reference = clean_line(log.groups.front().name);
    TextTable table;
    table.corner = "AGAINST " + reference;
    table.columns = {{{"GOES FLAT", "X AS OFTEN"}},
                     {{"COULD BE", "(9 IN 10)"}},
                     {{"COUNT", "ALONE"}, Align::kEnd, 3},
                     {{"TO TELL TWICE,", "RIDE ANOTHER"}, Align::kEnd, 3}};
    for (std::size_t g = 1; g < log.groups.size(); ++g) {
        const FlatGroup& group = log.groups[g];
        TextRow row;
        row.mark = "  ";
        row.name = clean_line(group.name);
        row.cells = {write_two_figures(group.ratio.mid),
                     write_range(group.ratio.low, group.ratio.high),
                     write_range(group.exact.limits.low, group.exact.limits.high),
                     write_more(group.more_m)};
        table.rows.push_back(std::move(row));
    }
    Lines lines = lay_table(table, options);
    append(lines, wrap("TO TELL TWICE: until flats twice as frequent as on " + reference +
                           " would show, 4 times in 5. Until then the range above is "
                           "what a choice should allow for.",
                       options.width, "  "));
    lines.emplace_back();
    return lines;
}

Lines lay_races(const FlatLog& log, const PageOptions& options) {
    const RaceRides& races = log.races;
    const Belief& factor = races.factor;
    if (races.rides == 0) {
        return wrap("none in the log (column kind, \"race\"); a race is taken to bring " +
                        write_two_figures(factor.mid) +
                        " x the flats of training, could be " +
                        write_range(factor.low, factor.high) + ".",
                    options.width, "RACES    ");
    }
    return wrap(
        fmt::format("{}, {}, {}; kept apart from training. A race brings {} x "
                    "the flats of training, could be {} (count alone: {}).",
                    count(races.rides, "race", "races"), write_km(races.distance_m),
                    count(races.flats, "flat", "flats"), write_two_figures(factor.mid),
                    write_range(factor.low, factor.high),
                    write_range(races.exact.limits.low, races.exact.limits.high)),
        options.width, "RACES    ");
}

Lines lay_repairs(const FlatLog& log, const PageOptions& options) {
    const LoggedRepairs& repairs = log.repairs;
    const std::string times = fmt::format(
        "usually {}, could be {} to {} (front wheel; a rear one takes a minute "
        "longer); two repairs in three within a factor of {:.1f}.",
        format_duration(repairs.median_s.mid), format_duration(repairs.median_s.low),
        format_duration(repairs.median_s.high), repairs.spread);
    const std::string head = repairs.count == 0 ? "none timed (column repair_min)"
                                                : format_count(repairs.count) + " timed";
    return wrap(head + ": " + times, options.width, "REPAIRS  ");
}

Lines lay_doubts(const FlatLog& log, const PageOptions& options) {
    Lines lines;
    for (const Problem& doubt : log.warnings) {
        for (const std::string& line :
             wrap(clean_line(format_problem(doubt)), options.width, "DOUBT    ")) {
            lines.push_back(paint(line, Ink::kWarning, options.colour));
        }
    }
    return lines;
}

Lines lay_use(const FlatLog& log, const PageOptions& options) {
    Lines lines;
    if (!log.by_inner) {
        append(lines, wrap("name the inner of each ride in a column `inner`, and "
                           "scenarios learn what each inner does.",
                           options.width, "TIP      "));
    }
    append(lines, wrap("write evidence = { flats = \"" + clean_line(log.file) +
                           "\" } into a scenario; or put flats.toml beside it and write "
                           "include = [\"flats.toml\"].",
                       options.width, "USE IT   "));
    if (options.tables_directory.empty()) return lines;
    append(lines, wrap(clean_line(options.tables_directory) + " (rates.csv, flats.toml)",
                       options.width, "TABLES   "));
    return lines;
}

}  // namespace

std::string write_flat_page(const FlatLog& log, const PageOptions& asked) {
    constexpr int kNarrowest = 80;
    PageOptions options = asked;
    options.width = std::max(options.width, kNarrowest);
    Lines lines = lay_title(log, options);
    append(lines, lay_rates(log, options));
    append(lines, lay_comparison(log, options));
    append(lines, lay_races(log, options));
    append(lines, lay_repairs(log, options));
    append(lines, lay_doubts(log, options));
    append(lines, lay_use(log, options));
    std::string page;
    for (const std::string& line : lines) page += line + '\n';
    return page;
}

}  // namespace flattail

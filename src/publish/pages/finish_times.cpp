#include "publish/pages/finish_times.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/expects.h"
#include "publish/pages/text.h"
#include "publish/pages/text_table.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

constexpr int kNoEdge = -1;
// Times are printed to whole seconds; an edge this near the goal is the goal.
constexpr double kSameTime_s = 0.5;
// Columns that names get before neighbouring bins are joined for their sake.
constexpr int kNameColumns = 14;

int find_goal_edge(const Findings& findings) {
    if (findings.goals_s.empty()) return kNoEdge;
    const std::vector<double>& edges = findings.histogram.edges_s;
    const auto found = std::find_if(edges.begin(), edges.end(), [&](double edge) {
        return std::abs(edge - findings.goals_s.front()) < kSameTime_s;
    });
    return found == edges.end() ? kNoEdge : static_cast<int>(found - edges.begin());
}

// Every `step`-th edge, the goal among them.
std::vector<std::size_t> choose_edges(std::size_t count, std::size_t step,
                                      int goal_edge) {
    const std::size_t first =
        goal_edge == kNoEdge ? 0 : static_cast<std::size_t>(goal_edge) % step;
    std::vector<std::size_t> kept;
    for (std::size_t i = first; i < count; i += step) kept.push_back(i);
    return kept;
}

bool are_whole_minutes(const std::vector<double>& edges_s) {
    return std::all_of(edges_s.begin(), edges_s.end(),
                       [](double edge) { return std::llround(edge) % 60 == 0; });
}

// "2:29", ":31", ... "3:01": the hour (or the minute, in short races) only when it
// changes.
std::vector<std::string> label_edges(const std::vector<double>& edges_s) {
    const bool has_hours = !edges_s.empty() && edges_s.back() >= 3600.0;
    const std::int64_t unit_s = has_hours && are_whole_minutes(edges_s) ? 60 : 1;
    std::vector<std::string> labels;
    std::int64_t last_big = -1;
    for (const double edge : edges_s) {
        const std::int64_t units = std::llround(edge) / unit_s;
        const std::int64_t big = units / 60;
        if (big == last_big) {
            labels.push_back(fmt::format(":{:02}", units % 60));
        } else {
            labels.push_back(unit_s == 60 ? fmt::format("{}:{:02}", big, units % 60)
                                          : format_duration(edge));
        }
        last_big = big;
    }
    return labels;
}

std::string format_days(double share) {
    const double hundred = 100.0 * share;
    if (hundred <= 0.0) return "-";
    return hundred < 0.5 ? "<1" : fmt::format("{:.0f}", hundred);
}

// Shares of the joined bins: one more than edges kept.
std::vector<double> join_bins(const std::vector<double>& shares,
                              const std::vector<std::size_t>& kept) {
    std::vector<double> joined;
    std::size_t from = 0;
    for (std::size_t i = 0; i <= kept.size(); ++i) {
        const std::size_t to = i < kept.size() ? kept[i] + 1 : shares.size();
        joined.push_back(
            std::accumulate(shares.begin() + static_cast<std::ptrdiff_t>(from),
                            shares.begin() + static_cast<std::ptrdiff_t>(to), 0.0));
        from = to;
    }
    return joined;
}

TextTable make_table(const Findings& findings, const std::vector<std::size_t>& kept,
                     int goal_edge) {
    std::vector<double> edges_s;
    for (const std::size_t i : kept) edges_s.push_back(findings.histogram.edges_s[i]);
    const std::vector<std::string> labels = label_edges(edges_s);
    TextTable table;
    for (std::size_t i = 0; i < kept.size(); ++i) {
        table.columns.push_back({{i == 0 ? "before" : "", labels[i]}, Align::kEnd, 1});
        if (static_cast<int>(kept[i]) == goal_edge) {
            table.columns.push_back({{"|", "|"}, Align::kEnd, 1});
        }
    }
    table.columns.push_back({{"later", "/none"}, Align::kEnd, 1});
    for (std::size_t setup = 0; setup < findings.setups.size(); ++setup) {
        TextRow row;
        row.name = findings.setups[setup].name;
        row.mark = "  ";
        if (findings.setups[setup].vetoed) row.ink = Ink::kFaint;
        const std::vector<double> shares =
            join_bins(findings.histogram.shares[setup], kept);
        for (std::size_t i = 0; i < shares.size(); ++i) {
            row.cells.push_back(format_days(shares[i]));
            const bool is_goal =
                i < kept.size() && static_cast<int>(kept[i]) == goal_edge;
            if (is_goal) row.cells.push_back("|");
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::string describe_goal(const Findings& findings, int goal_edge) {
    if (findings.goals_s.empty()) return "";
    const double goal_s = findings.goals_s.front();
    const std::string goal = format_duration(goal_s);
    const std::vector<double>& edges = findings.histogram.edges_s;
    if (goal_edge != kNoEdge) return "   | goal " + goal;
    if (goal_s < edges.front()) return "   goal " + goal + ": before all of these";
    if (goal_s > edges.back()) return "   goal " + goal + ": after all of these";
    return "   goal " + goal;
}

}  // namespace

std::vector<std::string> lay_finish_times(const Findings& findings,
                                          const PageOptions& options) {
    const std::size_t count = findings.histogram.edges_s.size();
    if (count == 0) return {};
    FLATTAIL_EXPECTS(findings.histogram.shares.size() == findings.setups.size());
    const int goal_edge = find_goal_edge(findings);
    TextTable table;
    for (std::size_t step = 1; step <= count; ++step) {
        table = make_table(findings, choose_edges(count, step, goal_edge), goal_edge);
        if (measure_figures(table) + kNameColumns <= options.width) break;
    }
    std::vector<std::string> lines = lay_table(table, options);
    lines.insert(lines.begin(), paint("RACE DAYS OUT OF 100 BY FINISH TIME" +
                                          describe_goal(findings, goal_edge),
                                      Ink::kStrong, options.colour));
    return lines;
}

}  // namespace flattail::publish

#include "publish/pages/condition_table.h"

#include <fmt/format.h>

#include "publish/pages/page_tables.h"
#include "publish/pages/text.h"
#include "publish/pages/text_table.h"
#include "publish/words.h"

namespace flattail::publish {

namespace {

void add_columns(TextTable& table, const ConditionFindings& condition) {
    table.columns.push_back(
        {{upper_ascii(condition.name) + " ROAD", "TYPICAL"}, Align::kEnd, 3});
    table.columns.push_back({{"", "NET"}});
    table.columns.push_back({{"", "A FLAT"}});
}

void add_cells(TextRow& row, const Findings& findings, const ConditionFindings& condition,
               std::size_t setup) {
    const ConditionRow& figures = condition.setups[setup];
    const bool is_against = static_cast<int>(setup) == findings.against;
    row.cells.push_back(format_duration(figures.typical_s));
    row.cells.push_back(is_against ? "" : format_difference(figures.against_s.value));
    row.cells.push_back(
        format_out_of_100(figures.flat, condition.share.value * count_days(findings)));
}

}  // namespace

std::vector<std::string> lay_conditions(const Findings& findings,
                                        const PageOptions& options) {
    if (findings.conditions.size() < 2) return {};
    TextTable table;
    table.corner = fmt::format(
        "WET ON {} OF 100 DAYS",
        format_out_of_100(findings.conditions.back().share, count_days(findings)));
    for (const ConditionFindings& condition : findings.conditions) {
        add_columns(table, condition);
    }
    for (std::size_t s = 0; s < findings.setups.size(); ++s) {
        TextRow row = begin_row(findings, s);
        for (const ConditionFindings& condition : findings.conditions) {
            add_cells(row, findings, condition, s);
        }
        table.rows.push_back(std::move(row));
    }
    return lay_table(table, options);
}

}  // namespace flattail::publish

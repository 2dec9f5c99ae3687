#include "scenario/rider/drag_by_yaw.h"

#include <fmt/format.h>

#include <cmath>

#include "input/tables/csv.h"
#include "input/toml/node_values.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using input::Node;

constexpr double kDegree_rad = 3.14159265358979323846 / 180.0;
// More rows say nothing that a smooth curve does not.
constexpr std::size_t kMostRows = 31;
constexpr const char* kExample =
    "write rows like { yaw = \"10 deg\", factor = 0.95 }, the first { yaw = \"0 deg\", "
    "factor = 1 }";

struct PlacedRow {
    physics::YawRow row;
    Place place;
};

Spec make_yaw_spec() {
    return {"rider.drag_by_yaw.yaw",
            "yaw",
            Dimension::kAngle,
            kDegree,
            Scale::kSigned,
            Layer::kKnowledge,
            0,
            std::round(physics::kLargestYaw_rad / kDegree_rad),
            "write angles from 0 to 60 deg; both sides count alike"};
}

Spec make_factor_spec() {
    return {"rider.drag_by_yaw.factor",
            "factor",
            Dimension::kNumber,
            kNoUnit,
            Scale::kPositive,
            Layer::kKnowledge,
            0.2,
            3,
            "write drag along the bicycle / that at no yaw, like 0.95"};
}

std::vector<PlacedRow> read_rows(Draft& draft, const Node& list) {
    std::vector<PlacedRow> rows;
    if (!list.is_table_list()) {
        draft.problems.add_error(list.place, "rider.drag_by_yaw is no list of rows",
                                 kExample);
        return rows;
    }
    for (const Node& item : list.items) {
        Table table(&item, "rider.drag_by_yaw", draft.problems);
        const auto yaw = table.find_value(make_yaw_spec());
        const auto factor = table.find_value(make_factor_spec());
        const bool is_whole = table.find("yaw") && table.find("factor");
        table.reject_unknown_keys();
        if (!is_whole) {
            draft.problems.add_error(
                item.place, "rider.drag_by_yaw: a row needs yaw and factor", kExample);
        }
        if (yaw && factor) rows.push_back({{*yaw, *factor}, item.place});
    }
    return rows;
}

std::vector<PlacedRow> read_file(Draft& draft, const Node& node) {
    std::vector<PlacedRow> rows;
    const auto table =
        input::read_csv(input::resolve_path(node), draft.problems, node.place);
    if (!table) return rows;
    table->check_columns({"yaw", "factor"}, draft.problems);
    const auto yaw = table->read_column("yaw", Dimension::kAngle, input::Need::kRequired,
                                        draft.problems);
    const auto factor = table->read_column("factor", Dimension::kNumber,
                                           input::Need::kRequired, draft.problems);
    for (std::size_t i = 0; i < std::min(yaw.size(), factor.size()); ++i) {
        if (!yaw[i] || !factor[i]) continue;
        const Place place = table->place_of(table->rows[i].front());
        const bool fits =
            check_limits(*yaw[i], make_yaw_spec(), place, draft.problems) &&
            check_limits(*factor[i], make_factor_spec(), place, draft.problems);
        if (fits) rows.push_back({{*yaw[i], *factor[i]}, place});
    }
    return rows;
}

void check_rows(Draft& draft, const Node& node, const std::vector<PlacedRow>& rows) {
    const auto refuse = [&](const Place& place, const std::string& what,
                            const std::string& hint) {
        draft.problems.add_error(place, "rider.drag_by_yaw" + what, hint);
    };
    constexpr double kExact = 1e-9;
    if (rows.size() < 2 || rows.size() > kMostRows) {
        return refuse(node.place,
                      fmt::format(" has {} rows, not 2 to {}", rows.size(), kMostRows),
                      kExample);
    }
    if (rows.front().row.yaw_rad > kExact ||
        std::abs(rows.front().row.factor - 1.0) > kExact) {
        refuse(rows.front().place, " does not begin with the factor 1 at no yaw",
               "divide every factor by the one at 0 deg; drag_area is that at 0 deg");
    }
    for (std::size_t i = 1; i < rows.size(); ++i) {
        if (rows[i].row.yaw_rad > rows[i - 1].row.yaw_rad + kExact) continue;
        refuse(rows[i].place, ": a yaw is not larger than the one before",
               "order the rows by their yaw");
    }
}

}  // namespace

void read_drag_by_yaw(Draft& draft, Table& rider) {
    const Node* node = rider.find("drag_by_yaw");
    if (!node) {
        note_choice(draft, "rider.drag_by_yaw", "drag in a cross wind",
                    "the same area from all sides", Origin::kAssumption, "assumption");
        return;
    }
    const int errors_before = draft.problems.error_count();
    const bool is_file = node->is(input::NodeKind::kString);
    const auto rows = is_file ? read_file(draft, *node) : read_rows(draft, *node);
    if (draft.problems.error_count() != errors_before) return;
    check_rows(draft, *node, rows);
    for (const PlacedRow& placed : rows) {
        draft.model.rider.drag_by_yaw.push_back(placed.row);
    }
}

}  // namespace flattail::scenario

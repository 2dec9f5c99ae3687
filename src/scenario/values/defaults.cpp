#include "scenario/values/defaults.h"

#include <algorithm>

#include "base/expects.h"
#include "scenario/values/default_rows.h"

namespace flattail::scenario {

namespace {

std::string name_source(const RowUsual& usual) {
    if (!usual.source.empty()) return std::string(usual.source);
    return usual.origin == Origin::kCommonPractice ? "common practice" : "assumption";
}

Spec make_spec(const DefaultRow& row) {
    Spec spec;
    spec.name = row.name;
    spec.label = row.label;
    spec.dimension = row.dimension;
    spec.unit = row.unit;
    spec.scale = row.scale;
    spec.layer = row.layer;
    spec.least = row.least;
    spec.most = row.most;
    spec.advice = row.advice;
    const RowUsual& usual = row.usual;
    spec.usual = {usual.form, usual.low,    usual.mid,
                  usual.high, usual.origin, name_source(usual)};
    return spec;
}

std::vector<Spec> make_table() {
    std::vector<Spec> table;
    for (const auto rows : {rider_rows(), weather_rows(), road_rows(), flats_rows(),
                            repair_rows(), decision_rows()}) {
        for (const DefaultRow& row : rows) table.push_back(make_spec(row));
    }
    return table;
}

}  // namespace

const std::vector<Spec>& all_specs() {
    static const std::vector<Spec> kTable = make_table();
    return kTable;
}

const Spec& find_spec(std::string_view name) {
    const std::vector<Spec>& table = all_specs();
    const auto it = std::find_if(table.begin(), table.end(),
                                 [&](const Spec& spec) { return spec.name == name; });
    FLATTAIL_EXPECTS(it != table.end());
    return *it;
}

Spec with_usual(const Spec& spec, Form form, double low, double mid, double high) {
    Spec changed = spec;
    changed.usual.form = form;
    changed.usual.low = low;
    changed.usual.mid = mid;
    changed.usual.high = high;
    return changed;
}

}  // namespace flattail::scenario

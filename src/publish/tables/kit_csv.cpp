// kit.csv: what each thing in a kit buys and weighs.
#include "publish/tables/csv_tables.h"
#include "publish/tables/csv_text.h"

namespace flattail::publish {

std::string write_kit_csv(const Findings& findings) {
    CsvText table({"setup", "item", "carried", "row_is", "weighs_g", "finishes_gained",
                   "finishes_gained_se", "saves_s", "saves_se_s", "weight_costs_s",
                   "weight_costs_se_s", "net_saved_s", "net_saved_se_s"});
    for (const KitRow& row : findings.kit) {
        table.add_row(
            {findings.setups[static_cast<std::size_t>(row.setup)].name, row.item,
             std::to_string(row.carried),
             row.is_added ? "one more" : "the last one carried",
             csv_number(1000.0 * row.weighs_kg), csv_number(row.finishes.value),
             csv_number(row.finishes.standard_error), csv_number(row.saves_s.value),
             csv_number(row.saves_s.standard_error), csv_number(row.costs_s.value),
             csv_number(row.costs_s.standard_error), csv_number(row.net_s.value),
             csv_number(row.net_s.standard_error)});
    }
    return table.text();
}

}  // namespace flattail::publish

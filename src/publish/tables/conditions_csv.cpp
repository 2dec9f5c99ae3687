#include "publish/tables/csv_tables.h"
#include "publish/tables/csv_text.h"

namespace flattail::publish {

std::string write_conditions_csv(const Findings& findings) {
    CsvText csv({"road", "share_of_days", "share_of_days_se", "setup", "typical_s",
                 "flat_chance", "flat_chance_se", "against", "difference_s",
                 "difference_se_s"});
    for (const ConditionFindings& condition : findings.conditions) {
        for (std::size_t s = 0; s < condition.setups.size(); ++s) {
            const ConditionRow& row = condition.setups[s];
            csv.add_row({condition.name, csv_number(condition.share.value),
                         csv_number(condition.share.standard_error),
                         findings.setups[s].name, csv_time(row.typical_s),
                         csv_number(row.flat.value), csv_number(row.flat.standard_error),
                         findings.setups[static_cast<std::size_t>(findings.against)].name,
                         csv_number(row.against_s.value),
                         csv_number(row.against_s.standard_error)});
        }
    }
    return csv.text();
}

}  // namespace flattail::publish

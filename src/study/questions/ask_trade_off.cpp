#include "study/questions/ask_trade_off.h"

#include "findings/paired.h"
#include "findings/sample/tail.h"

namespace flattail::study {

namespace {

using findings::Estimate;

constexpr double kTypical = 0.5;
constexpr double kBadDays = 0.95;  // the worst 1 in 20 lie beyond

Figure to_figure(const Estimate& e) { return {e.value, e.standard_error}; }

bool is_surely_less(const Estimate& difference) {
    const double z = findings::normal_factor(findings::kConfidence);
    return difference.value < -z * difference.standard_error;
}

bool beats(const findings::StudySample& sample, std::size_t winner, std::size_t loser) {
    const Estimate typical = findings::estimate_quantile_difference(
        *sample.finish[winner], *sample.finish[loser], kTypical);
    return is_surely_less(typical) &&
           is_surely_less(findings::estimate_worst_difference(
               *sample.judged[winner], *sample.judged[loser], kBadDays));
}

// The one that beats it by most on the typical day.
int find_beater(const WholeStudy& study, std::size_t loser) {
    const auto& setups = study.prepared.model->setups;
    int best = -1;
    for (std::size_t s = 0; s < setups.size(); ++s) {
        if (s == loser || setups[s].vetoed || !beats(*study.sample, s, loser)) continue;
        const auto typical_s = [&](std::size_t k) {
            return study.findings.setups[k].typical_s;
        };
        if (best < 0 || typical_s(s) < typical_s(static_cast<std::size_t>(best))) {
            best = static_cast<int>(s);
        }
    }
    return best;
}

void add_price(const WholeStudy& study, TradeOffRow& row) {
    const auto& setups = study.prepared.model->setups;
    const auto& setup = setups[static_cast<std::size_t>(row.setup)];
    if (!setup.price) return;
    const auto& against = setups[static_cast<std::size_t>(study.findings.against)];
    row.price = *setup.price - against.price.value_or(0.0);
    const bool is_sure =
        row.saved_s.value >
        findings::normal_factor(findings::kConfidence) * row.saved_s.standard_error;
    if (row.setup != study.findings.against && is_sure) {
        row.price_per_s = *row.price / row.saved_s.value;
    }
}

}  // namespace

std::vector<TradeOffRow> ask_trade_off(const WholeStudy& study) {
    std::vector<TradeOffRow> rows;
    for (std::size_t s = 0; s < study.findings.setups.size(); ++s) {
        TradeOffRow row;
        row.setup = static_cast<int>(s);
        row.typical_s = to_figure(study.sample->finish[s]->estimate_quantile(kTypical));
        row.bad_days_s = to_figure(
            findings::estimate_worst_average(*study.sample->judged[s], kBadDays));
        row.beaten_by = find_beater(study, s);
        for (const PairFindings& pair : study.findings.pairs) {
            if (pair.setup != row.setup) continue;
            row.saved_s = {-pair.mean_s.value, pair.mean_s.standard_error};
        }
        add_price(study, row);
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace flattail::study

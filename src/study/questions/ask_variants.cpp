#include "study/questions/ask_variants.h"

#include <algorithm>
#include <cmath>

#include "findings/paired.h"
#include "findings/sample/means.h"
#include "findings/sample/tail.h"
#include "study/days/ride_days.h"
#include "study/listing/ceilings.h"
#include "study/questions/list_variants.h"

namespace flattail::study {

namespace {

using findings::Estimate;
using findings::StudySample;
using sampling::kLanes;

// Days ridden again. A kit that saves one race in 700 changes the average of the worst
// 1 in 20 by a minute and a half, known to a sixth or so.
constexpr std::size_t kVariantDays = 32768;
constexpr double kTypical = 0.5;
constexpr double kBadDays = 0.95;  // the worst 1 in 20 lie beyond

Figure to_figure(const Estimate& e) { return {e.value, e.standard_error}; }

bool is_surely_less(const Estimate& difference) {
    const double z = findings::normal_factor(findings::kConfidence);
    return difference.value < -z * difference.standard_error;
}

// Differences of two setups of the sample, first less second.
struct Comparison {
    Estimate typical, bad_days;
};

Comparison compare(const StudySample& sample, std::size_t a, std::size_t b) {
    return {findings::estimate_quantile_difference(*sample.finish[a], *sample.finish[b],
                                                   kTypical),
            findings::estimate_worst_difference(*sample.judged[a], *sample.judged[b],
                                                kBadDays)};
}

Estimate average_change(const StudySample& sample, std::size_t a, std::size_t b) {
    return findings::estimate_mean(
        findings::difference_by_day(sample.judged_s[a], sample.judged_s[b]),
        sample.design);
}

// The whole study's figure and a change known from its first days: what both share is at
// most all, which overstates the error.
Figure add_change(const Estimate& whole, const Estimate& change, double share_of_days) {
    const double vm = whole.standard_error * whole.standard_error;
    const double vc = change.standard_error * change.standard_error;
    return {whole.value + change.value,
            std::sqrt(vm + vc + 2.0 * std::sqrt(share_of_days * vm * vc))};
}

// The study's setups first, in their order; then the variants.
scenario::Model make_tried(const scenario::Model& model, const VariantList& list) {
    scenario::Model tried = model;
    for (const Variant& variant : list.variants) tried.setups.push_back(variant.setup);
    return tried;
}

double find_chance(const StudySample& sample, std::size_t setup,
                   int (outcome::Tally::*count)() const) {
    const auto tallies = sample.outcomes->tallies(setup);
    double sum = 0.0, total = 0.0;
    for (std::size_t d = 0; d < sample.days(); ++d) {
        sum += (tallies[d].*count)() > 0 ? sample.design.weight[d] : 0.0;
        total += sample.design.weight[d];
    }
    return sum / total;
}

// The scenario's ceilings on flats at speed; empty when it keeps them.
std::string judge_flats(const StudySample& sample, const scenario::Decision& decision,
                        std::size_t setup) {
    Findings one;
    one.setups.resize(1);
    SetupFindings& found = one.setups.front();
    found.flat_at_speed.value = find_chance(sample, setup, &outcome::Tally::at_speed);
    found.front_flat_at_speed.value =
        find_chance(sample, setup, &outcome::Tally::front_at_speed);
    apply_ceilings(decision, one);
    return found.cautions.empty() ? "" : found.cautions.front();
}

// Every other way to ride that breaks no rule; the variants after the setups.
struct Rivals {
    std::vector<std::size_t> places;
    std::vector<std::string> words;
};

Rivals list_rivals(const WholeStudy& study, int advised,
                   const std::vector<VariantRow>& rows) {
    Rivals rivals;
    const auto& setups = study.findings.setups;
    for (std::size_t s = 0; s < setups.size(); ++s) {
        if (setups[s].vetoed || static_cast<int>(s) == advised) continue;
        rivals.places.push_back(s);
        rivals.words.push_back(setups[s].name);
    }
    for (std::size_t v = 0; v < rows.size(); ++v) {
        if (!rows[v].ruled_out.empty()) continue;
        rivals.places.push_back(setups.size() + v);
        rivals.words.push_back(rows[v].words);
    }
    return rivals;
}

// The one that beats it by most on the typical day.
std::string find_beater(const StudySample& sample, const Rivals& rivals,
                        std::size_t loser) {
    std::string best;
    double most_s = 0.0;
    for (std::size_t r = 0; r < rivals.places.size(); ++r) {
        if (rivals.places[r] == loser) continue;
        const Comparison c = compare(sample, rivals.places[r], loser);
        if (!is_surely_less(c.typical) || !is_surely_less(c.bad_days)) continue;
        if (c.typical.value >= most_s) continue;
        most_s = c.typical.value;
        best = rivals.words[r];
    }
    return best;
}

VariantRow make_row(const WholeStudy& study, const StudySample& sample, int advised,
                    const Variant& variant, std::size_t place) {
    const auto s = static_cast<std::size_t>(advised);
    const double share =
        static_cast<double>(sample.days()) / static_cast<double>(study.sample->days());
    const Comparison change = compare(sample, place, s);
    VariantRow row;
    row.varied = variant.varied;
    row.words = variant.words;
    row.typical_change_s = to_figure(change.typical);
    row.bad_days_change_s = to_figure(change.bad_days);
    row.average_change_s = to_figure(average_change(sample, place, s));
    row.typical_s = add_change(study.sample->finish[s]->estimate_quantile(kTypical),
                               change.typical, share);
    row.bad_days_s =
        add_change(findings::estimate_worst_average(*study.sample->judged[s], kBadDays),
                   change.bad_days, share);
    row.ruled_out = variant.ruled_out;
    if (row.ruled_out.empty() && variant.varied != Varied::kNothing) {
        row.ruled_out = judge_flats(sample, study.prepared.model->decision, place);
    }
    return row;
}

}  // namespace

VariantFindings ask_variants(const WholeStudy& study, int advised, const Asking& asking) {
    VariantFindings found;
    if (advised < 0) return found;
    const scenario::Model& model = *study.prepared.model;
    const std::size_t days =
        std::min(kVariantDays, study.sample->days() / kLanes * kLanes);
    const VariantList list = list_variants(study.prepared, advised);
    const scenario::Model tried = make_tried(model, list);
    const Prepared prepared = prepare(tried, *asking.options);
    const outcome::Outcomes outcomes = ride_days(prepared, days, *asking.run);
    const auto sample = findings::sort_outcomes(outcomes, tried, days, *asking.run);
    found.setup = advised;
    found.races = static_cast<std::int64_t>(days);
    found.has_limits = list.has_limits;
    const std::size_t setups = model.setups.size();
    for (std::size_t v = 0; v < list.variants.size(); ++v) {
        found.rows.push_back(
            make_row(study, *sample, advised, list.variants[v], setups + v));
    }
    const Rivals rivals = list_rivals(study, advised, found.rows);
    for (std::size_t v = 0; v < found.rows.size(); ++v) {
        found.rows[v].beaten_by = find_beater(*sample, rivals, setups + v);
    }
    return found;
}

}  // namespace flattail::study

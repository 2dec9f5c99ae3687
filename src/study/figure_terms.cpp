#include "study/figure_terms.h"

#include <cmath>

#include "findings/summary/summarise.h"

namespace flattail::study {

namespace {

using outcome::Tally;
using Terms = std::vector<FigureTerm>;

void add_event(Figure& figure, std::function<bool(std::size_t)> happened, Terms& terms) {
    terms.push_back(
        {&figure, figure.value, true, {}, [h = std::move(happened)](std::size_t d) {
             return h(d) ? 1.0 : 0.0;
         }});
}

// Chances that follow from a ride's counts alone.
void add_tallies(const findings::StudySample& sample, std::size_t s, SetupFindings& f,
                 Terms& terms) {
    const auto tally = sample.outcomes->tallies(s);
    const auto add = [&](Figure& figure, bool (*happened)(const Tally&)) {
        add_event(
            figure, [=](std::size_t d) { return happened(tally[d]); }, terms);
    };
    add(f.flat, [](const Tally& t) { return t.flats > 0; });
    add(f.two_flats, [](const Tally& t) { return t.flats > 1; });
    add(f.front_flat, [](const Tally& t) { return t.front_flats() > 0; });
    add(f.flat_at_speed, [](const Tally& t) { return t.at_speed() > 0; });
    add(f.front_flat_at_speed, [](const Tally& t) { return t.front_at_speed() > 0; });
    add(f.no_finish, [](const Tally& t) { return t.ending != ride::Ending::kFinished; });
    add(f.over_cutoff, [](const Tally& t) { return ride::is_over_cutoff(t.ending); });
    terms.push_back(
        {&f.flats_per_race, f.flats_per_race.value, false, {}, [=](std::size_t d) {
             return static_cast<double>(tally[d].flats);
         }});
}

void add_setup(const findings::StudySample& sample, const scenario::Model& model,
               std::size_t s, SetupFindings& f, Terms& terms) {
    const auto tally = sample.outcomes->tallies(s);
    const auto lost = sample.outcomes->lost(s);
    const auto limit = static_cast<float>(model.decision.lost_by_flats_s);
    const double* judged = sample.judged_s[s].data();
    terms.push_back(
        {&f.mean_judged_s, f.mean_judged_s.value, false, {}, [=](std::size_t d) {
             return judged[d];
         }});
    add_tallies(sample, s, f, terms);
    add_event(
        f.lose_long,
        [=](std::size_t d) {
            return tally[d].flats > 0 &&
                   (lost[d] >= limit || tally[d].ending != ride::Ending::kFinished);
        },
        terms);
    for (CauseRow& row : f.no_finish_causes) {
        for (const auto& [cause, words] : findings::list_causes(model)) {
            if (words != row.cause) continue;
            add_event(
                row.chance,
                [=, c = cause](std::size_t d) { return tally[d].ending == c; }, terms);
        }
    }
}

void add_pair(const findings::StudySample& sample, int against, PairFindings& pair,
              Terms& terms) {
    terms.push_back(make_difference(sample, pair.setup, against, pair.mean_s));
    const auto a = sample.outcomes->tallies(static_cast<std::size_t>(pair.setup));
    const auto b = sample.outcomes->tallies(static_cast<std::size_t>(against));
    const auto add = [&](Figure& figure, bool a_ends, bool b_ends) {
        add_event(
            figure,
            [=](std::size_t d) {
                return (a[d].ending == ride::Ending::kFinished) == a_ends &&
                       (b[d].ending == ride::Ending::kFinished) == b_ends;
            },
            terms);
    };
    add(pair.both_finish, true, true);
    add(pair.only_setup_finishes, true, false);
    add(pair.only_against_finishes, false, true);
    add(pair.neither_finishes, false, false);
}

}  // namespace

std::vector<FigureTerm> list_terms(const findings::StudySample& sample,
                                   const scenario::Model& model, Findings& findings) {
    Terms terms;
    for (std::size_t s = 0; s < findings.setups.size(); ++s) {
        const std::size_t first = terms.size();
        add_setup(sample, model, s, findings.setups[s], terms);
        const int setup = static_cast<int>(s);
        for (std::size_t t = first; t < terms.size(); ++t) terms[t].setups = {setup};
    }
    for (PairFindings& pair : findings.pairs) {
        const std::size_t first = terms.size();
        add_pair(sample, findings.against, pair, terms);
        for (std::size_t t = first; t < terms.size(); ++t) {
            terms[t].setups = {pair.setup, findings.against};
        }
    }
    return terms;
}

FigureTerm make_difference(const findings::StudySample& sample, int setup, int against,
                           Figure& mean) {
    const double* a = sample.judged_s[static_cast<std::size_t>(setup)].data();
    const double* b = sample.judged_s[static_cast<std::size_t>(against)].data();
    double sum = 0.0;
    for (std::size_t d = 0; d < sample.days(); ++d) {
        sum += sample.design.weight[d] * (a[d] - b[d]);
    }
    mean.value = sum / findings::total_weight(sample.design);
    return {&mean, mean.value, false, {setup, against}, [=](std::size_t d) {
                return a[d] - b[d];
            }};
}

void fill_term(const findings::StudySample& sample, const FigureTerm& term,
               std::size_t first, Eigen::Ref<Eigen::VectorXd> column) {
    for (Eigen::Index j = 0; j < column.size(); ++j) {
        const std::size_t day = first + static_cast<std::size_t>(j);
        column(j) = sample.design.weight[day] * (term.value(day) - term.mean);
    }
}

}  // namespace flattail::study

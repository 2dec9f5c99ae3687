#include "study/sharpen.h"

#include <algorithm>
#include <cmath>

#include "findings/sample/controls.h"
#include "findings/summary/summarise.h"
#include "study/control_rows.h"
#include "study/figure_terms.h"

namespace flattail::study {

namespace {

using sampling::kLanes;

// Sums are made of this many pieces whatever the threads, so that their bits stay.
constexpr std::size_t kPieces = 16;

// Days of one stratum stand together within a block; each run of them is added at once.
void add_runs(const findings::Design& design, std::size_t first,
              const Eigen::Ref<const Eigen::MatrixXd>& controls,
              const Eigen::Ref<const Eigen::MatrixXd>& figures,
              findings::ControlledMeans& sums) {
    const auto stratum_of = [&](Eigen::Index lane) {
        return design.stratum.empty()
                   ? std::uint8_t{0}
                   : design.stratum[first + static_cast<std::size_t>(lane)];
    };
    for (Eigen::Index begin = 0; begin < controls.rows();) {
        Eigen::Index end = begin + 1;
        while (end < controls.rows() && stratum_of(end) == stratum_of(begin)) ++end;
        sums.add(stratum_of(begin), controls.middleRows(begin, end - begin),
                 figures.middleRows(begin, end - begin));
        begin = end;
    }
}

findings::ControlledMeans sum_days(const findings::StudySample& sample,
                                   const ControlRows& rows,
                                   const std::vector<FigureTerm>& terms,
                                   const BlockExecutor& run) {
    const auto figures = static_cast<Eigen::Index>(terms.size());
    std::vector<findings::ControlledMeans> pieces(kPieces, {rows.count(), figures});
    const std::size_t blocks = (sample.days() + kLanes - 1) / kLanes;
    run(kPieces, [&](std::size_t piece, std::size_t last_piece) {
        Eigen::MatrixXd x(kLanes, rows.count()), y(kLanes, figures);
        for (; piece < last_piece; ++piece) {
            const std::size_t end = blocks * (piece + 1) / kPieces;
            for (std::size_t b = blocks * piece / kPieces; b < end; ++b) {
                const std::size_t first = b * kLanes;
                const auto lanes = static_cast<Eigen::Index>(
                    std::min<std::size_t>(kLanes, sample.days() - first));
                rows.fill(first, x.topRows(lanes));
                for (Eigen::Index f = 0; f < figures; ++f) {
                    fill_term(sample, terms[static_cast<std::size_t>(f)], first,
                              y.col(f).head(lanes));
                }
                add_runs(sample.design, first, x.topRows(lanes), y.topRows(lanes),
                         pieces[piece]);
            }
        }
    });
    for (std::size_t p = 1; p < kPieces; ++p) pieces[0].add(pieces[p]);
    return pieces[0];
}

void change(const FigureTerm& term, double correction, double standard_error) {
    Figure& figure = *term.figure;
    // What never happened keeps its chance of zero and its one-sided limit.
    if (figure.standard_error <= 0.0) return;
    figure.value += correction;
    if (term.is_chance) figure.value = std::clamp(figure.value, 0.0, 1.0);
    figure.standard_error = standard_error;
}

}  // namespace

void sharpen_figures(const findings::StudySample& sample, const Prepared& prepared,
                     const std::vector<std::vector<InputId>>& pair_facts,
                     const BlockExecutor& run, Findings& findings) {
    const ControlRows rows(*sample.outcomes, *prepared.days, pair_facts);
    const std::vector<FigureTerm> terms = list_terms(sample, *prepared.model, findings);
    const findings::ControlledMeans sums = sum_days(sample, rows, terms, run);
    const double total = findings::total_weight(sample.design);
    std::vector<double> drawn_mean_s;
    for (const PairFindings& pair : findings.pairs) {
        drawn_mean_s.push_back(pair.mean_s.value);
    }
    for (std::size_t begin = 0, end = 0; begin < terms.size(); begin = end) {
        const std::vector<int>& setups = terms[begin].setups;
        std::vector<Eigen::Index> figures;
        for (; end < terms.size() && terms[end].setups == setups; ++end) {
            figures.push_back(static_cast<Eigen::Index>(end));
        }
        const bool is_pair = setups.size() == 2;
        const auto facts = is_pair ? pair_facts[static_cast<std::size_t>(setups[0])]
                                   : std::vector<InputId>{};
        const auto columns = rows.list_columns(setups, facts, sample.days());
        if (columns.empty()) continue;
        const auto sharp = sums.solve(total, columns, figures);
        for (std::size_t f = 0; f < figures.size(); ++f) {
            const auto at = static_cast<Eigen::Index>(f);
            change(terms[begin + f], sharp.correction(at), sharp.standard_error(at));
        }
    }
    for (std::size_t p = 0; p < findings.pairs.size(); ++p) {
        PairFindings& pair = findings.pairs[p];
        // Where no cutoff looks at legs and flats together, independent flats leave the
        // mean as it is.
        if (prepared.model->race.cutoffs.empty()) {
            pair.mean_independent_s = pair.mean_s;
        } else {
            pair.mean_independent_s.value += pair.mean_s.value - drawn_mean_s[p];
        }
    }
}

double find_largest_mean_error_s(const findings::StudySample& sample,
                                 const Prepared& prepared, const BlockExecutor& run) {
    const int against = prepared.model->decision.against;
    std::vector<FigureTerm> terms;
    std::vector<Figure> means(sample.setups());
    for (std::size_t s = 0; s < sample.setups(); ++s) {
        if (static_cast<int>(s) == against) continue;
        terms.push_back(make_difference(sample, static_cast<int>(s), against, means[s]));
    }
    const ControlRows rows(*sample.outcomes, *prepared.days, {});
    const findings::ControlledMeans sums = sum_days(sample, rows, terms, run);
    const double total = findings::total_weight(sample.design);
    double largest = 0.0;
    for (std::size_t f = 0; f < terms.size(); ++f) {
        const auto columns = rows.list_columns(terms[f].setups, {}, sample.days());
        const auto sharp = sums.solve(total, columns, {static_cast<Eigen::Index>(f)});
        largest = std::max(largest, sharp.standard_error(0));
    }
    return largest;
}

}  // namespace flattail::study

#include "study/sharpen.h"

#include <algorithm>
#include <cmath>

#include "findings/sample/controls.h"
#include "findings/sample/left_over.h"
#include "findings/summary/summarise.h"
#include "study/control_rows.h"
#include "study/figure_terms.h"

namespace flattail::study {

namespace {

using sampling::kLanes;

// Sums are made of this many pieces whatever the threads, so that their bits stay.
constexpr std::size_t kPieces = 16;

// Days of one stratum stand together within a block; each run of them is added at once.
template <class Sums>
void add_runs(const findings::Design& design, std::size_t first,
              const Eigen::Ref<const Eigen::MatrixXd>& controls,
              const Eigen::Ref<const Eigen::MatrixXd>& figures, Sums& sums) {
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

// What never happened keeps its chance of zero and its one-sided limit.
bool is_known(const FigureTerm& term) { return term.figure->standard_error <= 0.0; }

// Chances of the same setups, their controls, and what these leave of them.
struct SharpChances {
    std::vector<const FigureTerm*> terms;
    std::vector<Eigen::Index> columns;
    findings::LeftOver left;
};

void add_block(const findings::StudySample& sample, std::size_t first,
               const Eigen::Ref<const Eigen::MatrixXd>& x, SharpChances& chances) {
    Eigen::MatrixXd y(x.rows(), static_cast<Eigen::Index>(chances.terms.size()));
    for (Eigen::Index f = 0; f < y.cols(); ++f) {
        fill_term(sample, *chances.terms[static_cast<std::size_t>(f)], first, y.col(f));
    }
    const Eigen::MatrixXd own = x(Eigen::all, chances.columns);
    add_runs(sample.design, first, own, y, chances.left);
}

void state_errors(const SharpChances& chances, double total_weight) {
    for (std::size_t f = 0; f < chances.terms.size(); ++f) {
        const findings::ErrorShape& shape = chances.left.shape(f);
        Figure& figure = *chances.terms[f]->figure;
        figure.standard_error = std::sqrt(shape.variance()) / total_weight;
        figure.skewness = shape.skewness();
        figure.freedom = shape.freedom();
    }
}

// A second walk over the days, because what is left needs the coefficients first.
void find_chance_errors(const findings::StudySample& sample, const ControlRows& rows,
                        const std::vector<SharpChances>& all, const BlockExecutor& run) {
    std::vector<std::vector<SharpChances>> pieces(kPieces, all);
    const std::size_t blocks = (sample.days() + kLanes - 1) / kLanes;
    run(kPieces, [&](std::size_t piece, std::size_t last_piece) {
        Eigen::MatrixXd x(kLanes, rows.count());
        for (; piece < last_piece; ++piece) {
            const std::size_t end = blocks * (piece + 1) / kPieces;
            for (std::size_t b = blocks * piece / kPieces; b < end; ++b) {
                const std::size_t first = b * kLanes;
                const auto lanes = static_cast<Eigen::Index>(
                    std::min<std::size_t>(kLanes, sample.days() - first));
                rows.fill(first, x.topRows(lanes));
                for (SharpChances& chances : pieces[piece]) {
                    add_block(sample, first, x.topRows(lanes), chances);
                }
            }
        }
    });
    const double total = findings::total_weight(sample.design);
    for (std::size_t g = 0; g < all.size(); ++g) {
        SharpChances sum = all[g];
        for (const auto& piece : pieces) sum.left.add(piece[g].left);
        state_errors(sum, total);
    }
}

void change(const FigureTerm& term, double correction, double standard_error) {
    Figure& figure = *term.figure;
    if (is_known(term)) return;
    figure.value += correction;
    if (term.is_chance) figure.value = std::clamp(figure.value, 0.0, 1.0);
    figure.standard_error = standard_error;
}

SharpChances pick_chances(const std::vector<FigureTerm>& terms,
                          const std::vector<Eigen::Index>& figures,
                          const std::vector<Eigen::Index>& columns,
                          const findings::ControlledMeans::Sharpened& sharp) {
    std::vector<const FigureTerm*> chances;
    std::vector<Eigen::Index> kept;
    for (std::size_t f = 0; f < figures.size(); ++f) {
        const FigureTerm& term = terms[static_cast<std::size_t>(figures[f])];
        if (!term.is_chance || is_known(term)) continue;
        chances.push_back(&term);
        kept.push_back(static_cast<Eigen::Index>(f));
    }
    return {chances, columns, {sharp.coefficient(Eigen::all, kept), sharp.leverage}};
}

}  // namespace

void sharpen_figures(const findings::StudySample& sample, const Prepared& prepared,
                     const std::vector<std::vector<InputId>>& pair_facts,
                     const BlockExecutor& run, Findings& findings) {
    const ControlRows rows(*sample.outcomes, *prepared.days, pair_facts);
    const std::vector<FigureTerm> terms = list_terms(sample, *prepared.model, findings);
    const findings::ControlledMeans sums = sum_days(sample, rows, terms, run);
    const double total = findings::total_weight(sample.design);
    std::vector<SharpChances> chances;
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
        chances.push_back(pick_chances(terms, figures, columns, sharp));
    }
    find_chance_errors(sample, rows, chances, run);
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

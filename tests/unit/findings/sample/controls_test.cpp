#include "findings/sample/controls.h"

#include <random>

#include "findings/sample/means.h"
#include "support/catch.h"

using namespace flattail::findings;

namespace {

struct Drawn {
    Eigen::MatrixXd controls, figures;
    std::vector<double> ones, first_figure;
};

// Two controls and two figures: one made of the controls alone, one of noise alone.
Drawn draw(Eigen::Index days) {
    std::mt19937_64 random(3);
    std::normal_distribution<double> normal;
    Drawn d{Eigen::MatrixXd(days, 2), Eigen::MatrixXd(days, 2), {}, {}};
    for (Eigen::Index i = 0; i < days; ++i) {
        d.controls.row(i) << normal(random), normal(random);
        d.figures.row(i) << 3 * d.controls(i, 0) - 2 * d.controls(i, 1), normal(random);
    }
    for (Eigen::Index i = 0; i < days; ++i) {
        d.ones.push_back(1);
        d.first_figure.push_back(d.figures(i, 1));
    }
    return d;
}

ControlledMeans::Sharpened solve(const ControlledMeans& sums) {
    return sums.solve(1000, {0, 1}, {0, 1});
}

}  // namespace

TEST_CASE("a figure made of controls is known exactly") {
    const Drawn d = draw(1000);
    ControlledMeans sums(2, 2);
    sums.add(0, d.controls, d.figures);
    const auto sharp = solve(sums);
    CHECK(d.figures.col(0).mean() + sharp.correction(0) == Approx(0).margin(1e-9));
    CHECK(sharp.standard_error(0) < 1e-4);
    CHECK(sharp.standard_error(1) == Approx(1 / std::sqrt(1000.0)).epsilon(.1));
}

TEST_CASE("without controls the errors are those of weighted means") {
    const Drawn d = draw(1000);
    ControlledMeans sums(0, 2);
    sums.add(0, d.controls.leftCols(0), d.figures);
    const auto sharp = sums.solve(1000, {}, {0, 1});
    const Estimate plain = estimate_mean(d.first_figure, {d.ones, {}});
    CHECK(sharp.correction(1) == 0);
    CHECK(sharp.standard_error(1) == Approx(plain.standard_error).epsilon(1e-12));
}

TEST_CASE("days added in pieces are days added at once") {
    const Drawn d = draw(1000);
    ControlledMeans once(2, 2), first(2, 2), second(2, 2);
    once.add(1, d.controls, d.figures);
    first.add(1, d.controls.topRows(300), d.figures.topRows(300));
    second.add(1, d.controls.bottomRows(700), d.figures.bottomRows(700));
    first.add(second);
    const auto a = solve(once), b = solve(first);
    CHECK(a.correction.isApprox(b.correction, 1e-12));
    CHECK(a.standard_error(1) == Approx(b.standard_error(1)).epsilon(1e-12));
}

TEST_CASE("a control that never moves and a copy of another change nothing") {
    const Drawn d = draw(1000);
    Eigen::MatrixXd more(1000, 4);
    more << d.controls, Eigen::VectorXd::Zero(1000), d.controls.col(0);
    ControlledMeans plain(2, 2), copied(4, 2);
    plain.add(0, d.controls, d.figures);
    copied.add(0, more, d.figures);
    const auto a = solve(plain), b = copied.solve(1000, {0, 1, 2, 3}, {0, 1});
    CHECK(a.correction(1) == Approx(b.correction(1)).epsilon(1e-6));
    CHECK(a.standard_error(1) == Approx(b.standard_error(1)).epsilon(.002));
}

TEST_CASE("a control that is not asked for has no say") {
    const Drawn d = draw(1000);
    ControlledMeans both(2, 2), one(1, 2);
    both.add(0, d.controls, d.figures);
    one.add(0, d.controls.leftCols(1), d.figures);
    const auto a = both.solve(1000, {0}, {1}), b = one.solve(1000, {0}, {1});
    CHECK(a.correction(0) == Approx(b.correction(0)).epsilon(1e-12));
    CHECK(a.standard_error(0) == Approx(b.standard_error(0)).epsilon(1e-12));
}

TEST_CASE("a control of rounding alone, far from zero, moves no figure") {
    Drawn d = draw(1000);
    // Its strata differ from zero by 1 and vary by less than a float holds.
    for (Eigen::Index i = 0; i < 1000; ++i)
        d.controls(i, 0) = 1 + (i % 2 == 0 ? 1e-9 : 0.0);
    ControlledMeans sums(2, 2);
    sums.add(0, d.controls, d.figures);
    CHECK(sums.solve(1000, {0}, {1}).correction(0) == 0);
    // The twin varies as much as its distance from zero, and has its say.
    for (Eigen::Index i = 0; i < 1000; ++i) d.controls(i, 0) = i % 2 == 0 ? 1.0 : 2.0;
    ControlledMeans varied(2, 2);
    varied.add(0, d.controls, d.figures);
    CHECK(varied.solve(1000, {0}, {1}).correction(0) != 0);
}

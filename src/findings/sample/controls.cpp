#include "findings/sample/controls.h"

#include <Eigen/Cholesky>
#include <cmath>

namespace flattail::findings {

namespace {

// Added to the diagonal of the controls' correlations: a control that never moved, or a
// copy of another one, then takes part with a coefficient of nothing, or of half.
constexpr double kRidge = 1e-9;

// Share of a control's squares that must be left about the means of its strata. What is
// less is rounding (controls come as floats): dividing by it would make noise a figure.
constexpr double kLeastVariation = 1e-10;

// Squares and products about the mean, scaled for the days lost to it.
struct Spread {
    Eigen::MatrixXd controls, products;
    Eigen::VectorXd figures, control_sum, control_squares;  // the last about zero
    double days = 0;
};

ControlledMeans::Sharpened sharpen(const Spread& all, double total_weight) {
    const Eigen::Index controls = all.control_sum.size();
    ControlledMeans::Sharpened sharp{Eigen::VectorXd::Zero(all.figures.size()),
                                     all.figures,
                                     Eigen::MatrixXd::Zero(controls, all.figures.size()),
                                     Eigen::MatrixXd::Zero(controls, controls)};
    double freed = 1;
    if (controls > 0) {
        const Eigen::ArrayXd left = all.controls.diagonal();
        const Eigen::VectorXd size =
            (left > kLeastVariation * all.control_squares.array())
                .select(left.max(1e-300).sqrt().inverse(), 0.0)
                .matrix();
        Eigen::MatrixXd correlation =
            size.asDiagonal() * all.controls * size.asDiagonal();
        correlation.diagonal().array() += kRidge;
        const Eigen::MatrixXd scaled = size.asDiagonal() * all.products;
        const Eigen::LDLT<Eigen::MatrixXd> solver(correlation);
        sharp.coefficient = size.asDiagonal() * solver.solve(scaled);
        sharp.leverage =
            size.asDiagonal() * solver.solve(Eigen::MatrixXd(size.asDiagonal()));
        sharp.correction =
            -sharp.coefficient.transpose() * all.control_sum / total_weight;
        sharp.standard_error -= (sharp.coefficient.array() * all.products.array())
                                    .colwise()
                                    .sum()
                                    .matrix()
                                    .transpose();
        freed = all.days / std::fmax(all.days - static_cast<double>(controls), 1);
    }
    sharp.standard_error =
        (freed * sharp.standard_error.array().max(0)).sqrt().matrix() / total_weight;
    return sharp;
}

}  // namespace

ControlledMeans::ControlledMeans(Eigen::Index controls, Eigen::Index figures) {
    for (Part& part : parts_) {
        part.control_sum = Eigen::VectorXd::Zero(controls);
        part.figure_sum = part.figure_squares = Eigen::VectorXd::Zero(figures);
        part.control_squares = Eigen::MatrixXd::Zero(controls, controls);
        part.products = Eigen::MatrixXd::Zero(controls, figures);
    }
}

void ControlledMeans::add(std::uint8_t stratum, const Terms& controls,
                          const Terms& figures) {
    FLATTAIL_EXPECTS(stratum < parts_.size());
    Part& part = parts_[stratum];
    part.days += static_cast<double>(controls.rows());
    part.control_sum += controls.colwise().sum().transpose();
    part.figure_sum += figures.colwise().sum().transpose();
    part.figure_squares += figures.colwise().squaredNorm().transpose();
    part.control_squares.noalias() += controls.transpose() * controls;
    part.products.noalias() += controls.transpose() * figures;
}

void ControlledMeans::add(const ControlledMeans& other) {
    for (std::size_t h = 0; h < parts_.size(); ++h) {
        const Part& more = other.parts_[h];
        Part& part = parts_[h];
        part.days += more.days;
        part.control_sum += more.control_sum;
        part.figure_sum += more.figure_sum;
        part.figure_squares += more.figure_squares;
        part.control_squares += more.control_squares;
        part.products += more.products;
    }
}

ControlledMeans::Sharpened ControlledMeans::solve(
    double total_weight, const std::vector<Eigen::Index>& controls,
    const std::vector<Eigen::Index>& figures) const {
    const auto k = static_cast<Eigen::Index>(controls.size());
    const auto count = static_cast<Eigen::Index>(figures.size());
    Spread all{Eigen::MatrixXd::Zero(k, k),  Eigen::MatrixXd::Zero(k, count),
               Eigen::VectorXd::Zero(count), Eigen::VectorXd::Zero(k),
               Eigen::VectorXd::Zero(k),     0.0};
    for (const Part& part : parts_) {
        if (part.days == 0) continue;
        // A stratum with one day is compared with zero, as in StratifiedVariance.
        const double lost = part.days > 1 ? 1 / part.days : 0;
        const double scale = part.days > 1 ? part.days / (part.days - 1) : 1;
        const Eigen::VectorXd x = part.control_sum(controls);
        const Eigen::VectorXd y = part.figure_sum(figures);
        all.days += part.days;
        all.control_sum += x;
        all.control_squares += part.control_squares(controls, controls).diagonal();
        all.controls +=
            scale * (part.control_squares(controls, controls) - lost * x * x.transpose());
        all.products +=
            scale * (part.products(controls, figures) - lost * x * y.transpose());
        all.figures.array() +=
            scale * (part.figure_squares(figures).array() - lost * y.array().square());
    }
    return sharpen(all, total_weight);
}

}  // namespace flattail::findings

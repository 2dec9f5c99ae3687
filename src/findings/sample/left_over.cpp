#include "findings/sample/left_over.h"

#include <utility>

namespace flattail::findings {

namespace {

// A day that is its own fit would be off by anything.
constexpr double kMostLeverage = 0.9;

}  // namespace

LeftOver::LeftOver(Eigen::MatrixXd coefficient, Eigen::MatrixXd leverage)
    : coefficient_(std::move(coefficient)),
      leverage_(std::move(leverage)),
      shapes_(static_cast<std::size_t>(coefficient_.cols())) {}

void LeftOver::add(std::uint8_t stratum, const Terms& controls, const Terms& figures) {
    Eigen::MatrixXd left = figures;
    left.noalias() -= controls * coefficient_;
    const Eigen::ArrayXd fitted =
        (controls * leverage_).cwiseProduct(controls).rowwise().sum().array();
    left.array().colwise() /= 1.0 - fitted.min(kMostLeverage);
    for (Eigen::Index f = 0; f < left.cols(); ++f) {
        ErrorShape& shape = shapes_[static_cast<std::size_t>(f)];
        for (Eigen::Index j = 0; j < left.rows(); ++j) shape.add(stratum, left(j, f));
    }
}

void LeftOver::add(const LeftOver& other) {
    for (std::size_t f = 0; f < shapes_.size(); ++f) shapes_[f].add(other.shapes_[f]);
}

}  // namespace flattail::findings

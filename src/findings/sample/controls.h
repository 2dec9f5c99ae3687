// Means made sharper by quantities whose own mean is known to be zero.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cstdint>
#include <vector>

#include "findings/sample/estimate.h"

namespace flattail::findings {

/// Sums over days from which control variates take out of a figure's sampling error what
/// goes with the controls.
///
/// A row is a day, a column a term: weight x control (zero on average over days), and
/// weight x (figure - its weighted mean). Coefficients are those with the least variance
/// within strata.
/// Accuracy: consistent; the bias of fitted coefficients falls as 1 / days and stays far
///           below the error while days outnumber controls by kDaysPerControl
/// Source:  METHOD 10.32 (Lavenberg & Welch 1981; Cochran 1977, chapter 7)
class ControlledMeans {
  public:
    using Terms = Eigen::Ref<const Eigen::MatrixXd>;

    ControlledMeans(Eigen::Index controls, Eigen::Index figures);

    /// Adds days of one stratum.
    /// Shapes: controls[day, control], figures[day, figure]
    void add(std::uint8_t stratum, const Terms& controls, const Terms& figures);
    void add(const ControlledMeans& other);

    /// Corrections to add to the weighted means, the standard errors after them, and how
    /// much of each control goes out of a figure's terms; x' leverage x is how much a day
    /// with controls x has fitted itself.
    /// Shapes: correction[figure], standard_error[figure], coefficient[control, figure],
    ///         leverage[control, control]
    struct Sharpened {
        Eigen::VectorXd correction;
        Eigen::VectorXd standard_error;
        Eigen::MatrixXd coefficient;
        Eigen::MatrixXd leverage;
    };
    /// With these controls alone, for these figures; coefficients know nothing of others.
    Sharpened solve(double total_weight, const std::vector<Eigen::Index>& controls,
                    const std::vector<Eigen::Index>& figures) const;

  private:
    struct Part {
        double days = 0;
        Eigen::VectorXd control_sum, figure_sum, figure_squares;
        Eigen::MatrixXd control_squares, products;
    };
    std::array<Part, 8> parts_;
};

/// Fewer days per control than this, and a control is left out: its coefficient would be
/// fitted to noise. Assumption: errors grow by far less than 1 % (loss factor
/// (n - 2) / (n - k - 2), Lavenberg & Welch 1981). Fewer days, such as 40, let a study of
/// 128 days fit a coefficient to the one plain day with a nail, and miss by factors.
inline constexpr std::size_t kDaysPerControl = 400;

}  // namespace flattail::findings

// What controls leave of figures, day by day: the errors of the sharpened figures.
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <vector>

#include "findings/sample/error_shape.h"

namespace flattail::findings {

/// Terms of figures less what goes with the controls, each grown by how much the day has
/// fitted itself: what it would have been off, had it not taken part. Without that a few
/// days with high rates, which bend the fit to themselves, look as if they were known.
/// Source: METHOD 10.34 (MacKinnon & White 1985, HC3)
class LeftOver {
  public:
    using Terms = Eigen::Ref<const Eigen::MatrixXd>;

    /// Shapes: coefficient[control, figure], leverage[control, control]
    LeftOver(Eigen::MatrixXd coefficient, Eigen::MatrixXd leverage);

    /// Adds days of one stratum.
    /// Shapes: controls[day, control], figures[day, figure]
    void add(std::uint8_t stratum, const Terms& controls, const Terms& figures);
    void add(const LeftOver& other);

    const ErrorShape& shape(std::size_t figure) const { return shapes_[figure]; }

  private:
    Eigen::MatrixXd coefficient_, leverage_;
    std::vector<ErrorShape> shapes_;
};

}  // namespace flattail::findings

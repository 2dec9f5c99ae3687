// What is known to be zero on average over the days of a study, day by day.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "outcome/outcomes.h"
#include "sampling/day_plan.h"

namespace flattail::study {

/// Controls of a study: for each setup its ends less their chances and its surplus of
/// nails, then scores of facts that are not known and their squares less one.
/// Source: METHOD 10.30, 10.31, 10.33
class ControlRows {
  public:
    /// Everything must outlive this.
    ControlRows(const outcome::Outcomes& outcomes, const sampling::DayPlan& plan,
                const std::vector<std::vector<InputId>>& facts);

    Eigen::Index count() const;

    /// Columns of these setups and facts, in this order, as many as the days bear: what
    /// another setup's rides say is no part of a figure that is not its own.
    std::vector<Eigen::Index> list_columns(const std::vector<int>& setups,
                                           const std::vector<InputId>& facts,
                                           std::size_t days) const;

    /// Rows of the days from `first` on, a multiple of 64; as many as `rows` has, at most
    /// 64. Already times the days' weights.
    void fill(std::size_t first, Eigen::Ref<Eigen::MatrixXd> rows) const;

  private:
    const outcome::Outcomes* outcomes_;
    const sampling::DayPlan* plan_;
    std::vector<InputId> facts_;
};

}  // namespace flattail::study

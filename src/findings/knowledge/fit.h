// Regression of what happens on what is not known, one pass over the days, small memory.
#pragma once

#include <Eigen/Dense>
#include <cstddef>
#include <span>
#include <vector>

#include "findings/knowledge/features.h"
#include "findings/knowledge/model.h"

namespace flattail::findings {

/// A run of days, column by column.
/// Shapes:  score[input][day], response[setup][day], weight[day]
struct KnowledgeBlock {
    std::span<const std::span<const double>> score;
    std::span<const std::span<const double>> response;
    std::span<const double> weight;
};

/// Days drawn in turn from fixed strata share a jackknife group: every group then holds
/// every stratum in its true share. If runs were shorter than the turn of the strata, the
/// groups would differ by their strata and estimation noise would be overstated.
inline constexpr std::size_t kJackknifeRun = 64;

/// Weighted least squares of every setup's figure (judged time, or 0/1 for the goal) on
/// the same terms. Runs of 64 days go to 16 groups in turn; leaving one group out at a
/// time gives the errors of everything derived.
/// Range:    at least one day; without a second group all errors are unknown (NaN)
/// Accuracy: the same stream in the same blocks gives the same bits
/// Source:  METHOD 10.16, 10.17 (Strong, Oakley & Brennan 2014; Kott 2001 for the groups)
class KnowledgeFit {
  public:
    KnowledgeFit(KnowledgeFeatures features, std::size_t responses);

    void add_block(const KnowledgeBlock& block);
    /// Adds the days of a fit with the same terms and responses, after a whole number of
    /// runs of this one.
    void merge(const KnowledgeFit& other);
    KnowledgeModel solve() const;

  private:
    void add_run(const KnowledgeBlock& block, std::size_t first, std::size_t days);
    void fill_derived_terms();

    KnowledgeFeatures features_;
    std::size_t responses_ = 0;
    std::size_t days_ = 0;
    std::vector<Eigen::MatrixXd> gram_;  // [group], of terms and responses together
    Eigen::MatrixXd rows_;
};

}  // namespace flattail::findings

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

/// Weighted least squares of every setup's figure (judged time, or 0/1 for the goal) on
/// the same terms. Day i of the stream is counted in group i mod kJackknifeGroups;
/// leaving one group out at a time gives the errors of everything derived.
/// Accuracy: the
/// same stream in the same blocks gives the same bits
/// Source: METHOD 10.16, 10.17
/// (Strong, Oakley & Brennan 2014; Kott 2001 for the groups)
class KnowledgeFit {
  public:
    KnowledgeFit(KnowledgeFeatures features, std::size_t responses);

    void add_block(const KnowledgeBlock& block);
    /// Adds the days of a fit with the same terms and responses.
    void merge(const KnowledgeFit& other);
    KnowledgeModel solve() const;

  private:
    void add_group(const KnowledgeBlock& block, std::size_t group, std::size_t first_day);
    void fill_derived_terms();

    KnowledgeFeatures features_;
    std::size_t responses_ = 0;
    std::size_t days_ = 0;
    std::vector<Eigen::MatrixXd> gram_;  // [group], of terms and responses together
    Eigen::MatrixXd rows_;
};

}  // namespace flattail::findings

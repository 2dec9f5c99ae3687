// The fitted answer: what each setup's figure is expected to be, given what is not
// known.
#pragma once

#include <Eigen/Dense>
#include <cstddef>
#include <span>
#include <vector>

#include "findings/knowledge/features.h"
#include "findings/sample/estimate.h"

namespace flattail::findings {

/// Groups of days left out in turn. Fewer make errors of errors large (1/sqrt(2
/// groups)), more cost solves. Assumption.
inline constexpr std::size_t kJackknifeGroups = 16;

/// 97.5 % point of Student's t with kJackknifeGroups - 1 degrees of freedom: an error
/// from sixteen groups is itself known to a fifth only, and with the normal 1.96 an
/// interval holds 93 % instead of 95.
/// Source: Kott 2001; value by SciPy
inline constexpr double kJackknifeFactor = 2.131449545559323;

/// Setup a minus setup b.
struct Contrast {
    std::size_t a = 0;
    std::size_t b = 0;
};

/// Draws of the unknown facts to read the model at: score[input][draw], weight[draw].
/// The days themselves, or a few thousand of them evenly spread.
struct KnowledgeDraws {
    std::span<const std::span<const double>> score;
    std::span<const double> weight;
};

struct KnowledgeModel {
    KnowledgeFeatures features;
    Eigen::MatrixXd coefficient;                  ///< [term][setup]
    std::vector<Eigen::MatrixXd> replicate;       ///< the same with one group left out
    Eigen::VectorXd term_mean;                    ///< [term]
    Eigen::MatrixXd term_covariance;              ///< [term][term], weighted
    Eigen::VectorXd response_mean;                ///< [setup]
    Eigen::MatrixXd response_covariance;          ///< [setup][setup], weighted
    std::vector<Eigen::VectorXd> mean_replicate;  ///< response_mean, one group left out
};

/// Jackknife standard error from the values with one group left out; NaN if there are
/// none.
/// Source: METHOD 10.17 (Kott 2001, delete-a-group jackknife)
double jackknife_error(std::span<const double> replicate);

/// How much of a difference is not known, and how much is luck.
struct KnowledgeSplit {
    Estimate mean;
    Estimate knowledge_sd;  ///< sd of E[difference | facts], freed of estimation noise
    double luck_sd = 0;     ///< sd of what remains
    double kept_share = 0;  ///< factor that draws fitted spread together, in [0, 1]
};

/// Source: METHOD 10.18
KnowledgeSplit split_difference(const KnowledgeModel& model, const Contrast& contrast);

/// Terms of all draws: [draw][term].
Eigen::MatrixXd terms_of(const KnowledgeFeatures& features, const KnowledgeDraws& draws);

/// How to read a model: what survives of each term (all ones: everything is known), and
/// which group of days is left out (kAllDays: none).
inline constexpr std::size_t kAllDays = kJackknifeGroups;
struct ModelReading {
    std::vector<double> kept;
    std::size_t left_out = kAllDays;
};
ModelReading read_everything(const KnowledgeModel& model);

/// Expected figure of every setup minus that of setup base at each draw, [draw][setup],
/// spread corrected for estimation noise; column base is 0.
/// Source: METHOD 10.18
Eigen::MatrixXd expected_against(const KnowledgeModel& model, std::size_t base,
                                 const Eigen::MatrixXd& terms,
                                 const ModelReading& reading);

/// Expected difference at each draw.
std::vector<double> expected_differences(const KnowledgeModel& model,
                                         const Contrast& contrast,
                                         const KnowledgeDraws& draws);

/// "Could be, 9 in 10": 5th and 95th percentile of the expected difference.
Interval could_be(const KnowledgeModel& model, const Contrast& contrast,
                  const KnowledgeDraws& draws);

/// Setup with the best mean figure; the first of equals.
enum class Better { kSmaller, kLarger };
std::size_t best_on_average(const KnowledgeModel& model, Better better);

}  // namespace flattail::findings

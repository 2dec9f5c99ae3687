// Simulation-based calibration of pooled rolling tests (Talts et al. 2018): with the
// truth drawn from the prior, the share of the posterior below the truth is uniform, and
// an interval of 95 % holds the truth 95 times in 100.
#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>
#include <random>

#include "evidence/rolling/posterior.h"
#include "support/catch.h"

using namespace flattail::evidence;

namespace {

constexpr int kRepetitions = 6000;
constexpr int kProducts = 3;
constexpr int kBins = 20;
const RollingPrior kPrior{.0015, .0003, .0001};

// Three laboratories, one of them with two blocks; no product stands in all blocks.
const std::vector<Cell> kDesign{
    {0, 0, 0, 0, 2e-8}, {0, 0, 1, 0, 1e-8}, {0, 0, 2, 0, 4e-8},
    {1, 1, 0, 0, 1e-8}, {1, 1, 1, 0, 3e-8}, {1, 2, 0, 0, 2e-8},
    {1, 2, 2, 0, 1e-8}, {2, 3, 1, 0, 1e-8}, {2, 3, 2, 0, 1e-8}};

struct Truth {
    double product[kProducts] = {};
    std::vector<Cell> cells;
};

Truth draw_truth(std::mt19937_64& random) {
    std::normal_distribution<double> normal;
    Truth truth;
    const double tau = std::abs(normal(random)) * kPrior.between_laboratories;
    for (double& product : truth.product) {
        product = normal(random) * kPrior.difference_sd / std::sqrt(2.0);
    }
    const double own_sd =
        std::sqrt(.5 * tau * tau + kPrior.specimen_sd * kPrior.specimen_sd);
    double own[3][kProducts], level[4];
    for (auto& laboratory : own) {
        for (double& value : laboratory) value = own_sd * normal(random);
    }
    for (double& value : level) value = .004 + .001 * normal(random);
    truth.cells = kDesign;
    for (Cell& cell : truth.cells) {
        cell.value = level[cell.block] + truth.product[cell.product] +
                     own[cell.laboratory][cell.product] +
                     std::sqrt(cell.variance) * normal(random);
    }
    return truth;
}

// The share of the posterior of A - B below x, every spread times `nudge`.
double find_share_below(const RollingPosterior& posterior, double x, int a, int b,
                        double nudge) {
    Eigen::VectorXd contrast = Eigen::VectorXd::Zero(kProducts - 1);
    if (a > 0) contrast(a - 1) += 1.0;
    if (b > 0) contrast(b - 1) -= 1.0;
    const double middle = contrast.dot(posterior.mean());
    double below = 0.0;
    for (const PosteriorNode& node : posterior.nodes()) {
        const double mean = middle + nudge * (contrast.dot(node.mean) - middle);
        const double sd = nudge * std::sqrt(contrast.dot(node.covariance * contrast));
        below += node.share * .5 * std::erfc((mean - x) / sd / std::sqrt(2.0));
    }
    return below;
}

struct Calibration {
    int counts[kBins] = {};
    int held = 0;  // by the 95 % interval

    void add(double share) {
        ++counts[std::min(static_cast<int>(share * kBins), kBins - 1)];
        if (share > .025 && share < .975) ++held;
    }
    double chi_squared() const {
        const double expected = static_cast<double>(kRepetitions) / kBins;
        double sum = 0.0;
        for (const int count : counts) {
            sum += (count - expected) * (count - expected) / expected;
        }
        return sum;
    }
    double held_percent() const { return 100.0 * held / kRepetitions; }
};

struct Calibrations {
    Calibration sound[3], shrunk[3];
};

// Every pair of products, as it is and with intervals shrunk by a fifth.
Calibrations calibrate() {
    constexpr int kPairs[3][2] = {{1, 0}, {2, 0}, {1, 2}};
    std::mt19937_64 random(20261125);
    Calibrations found;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        const Truth truth = draw_truth(random);
        const RollingPosterior posterior(truth.cells, kProducts, kPrior);
        for (int pair = 0; pair < 3; ++pair) {
            const auto [a, b] = kPairs[pair];
            const double x = truth.product[a] - truth.product[b];
            found.sound[pair].add(find_share_below(posterior, x, a, b, 1.0));
            found.shrunk[pair].add(find_share_below(posterior, x, a, b, 0.8));
        }
    }
    return found;
}

}  // namespace

// Null: shares are uniform, so the statistic over 20 bins is chi-squared with 19 degrees
// of freedom; bound: exceeded once in a million, for each of three pairs. Cover: a
// binomial with standard error sqrt(.95 x .05 / 6000) = .28 %, so 1.5 % is 5.3 of them.
TEST_CASE("pooled differences are calibrated, and intervals shrunk by a fifth are not") {
    const double bound = boost::math::quantile(boost::math::complement(
        boost::math::chi_squared_distribution<double>(kBins - 1), 1e-6));
    const Calibrations found = calibrate();
    for (int pair = 0; pair < 3; ++pair) {
        CAPTURE(pair);
        CHECK(found.sound[pair].chi_squared() < bound);
        CHECK(std::abs(found.sound[pair].held_percent() - 95.0) < 1.5);
        CHECK(found.shrunk[pair].chi_squared() > bound);
        CHECK(std::abs(found.shrunk[pair].held_percent() - 95.0) > 1.5);
    }
}

// The posterior against the scalar formula of two products, integrated by another rule,
// and against what must not matter.
#include "evidence/rolling/posterior.h"

#include <boost/math/quadrature/tanh_sinh.hpp>
#include <cmath>
#include <numeric>

#include "support/catch.h"

using namespace flattail::evidence;
using Of = RollingPosterior::Of;

namespace {

// Four laboratories, two products, differences in the size of Crr.
const std::vector<double> kDifference{-4.1e-4, -6.3e-4, -2.2e-4, -5.8e-4};
const std::vector<double> kVariance{1.1e-8, 0.7e-8, 2.4e-8, 0.5e-8};

std::vector<Cell> make_two_products() {
    std::vector<Cell> cells;
    for (int l = 0; l < 4; ++l) {
        const auto i = static_cast<std::size_t>(l);
        const double level = 0.004 + 0.0003 * l;  // must not matter
        cells.push_back({l, l, 0, level, 0.3 * kVariance[i]});
        cells.push_back({l, l, 1, level + kDifference[i], 0.7 * kVariance[i]});
    }
    return cells;
}

// The same posterior by the textbook formula for one difference: given tau its precision
// is 1/s^2 + sum of w, w = 1 / (v + tau^2).
struct Scalar {
    double difference_sd, scale, specimen_sd;

    double log_density(double tau, double& mean, double& variance) const {
        double precision = 1.0 / (difference_sd * difference_sd), weighted = 0.0;
        double squares = 0.0, log_weight = 0.0;
        for (std::size_t i = 0; i < kDifference.size(); ++i) {
            const double w =
                1.0 / (kVariance[i] + tau * tau + 2.0 * specimen_sd * specimen_sd);
            precision += w;
            weighted += w * kDifference[i];
            squares += w * kDifference[i] * kDifference[i];
            log_weight += 0.5 * std::log(w);
        }
        mean = weighted / precision;
        variance = 1.0 / precision;
        return log_weight - 0.5 * std::log(precision) - 0.5 * squares +
               0.5 * weighted * mean - 0.5 * tau * tau / (scale * scale);
    }

    template <class Value>
    double average(const Value& value) const {
        boost::math::quadrature::tanh_sinh<double> rule;
        double m = 0.0, v = 0.0;
        const double top = log_density(scale, m, v);
        const auto integrate = [&](auto f) {
            return rule.integrate(
                [&](double tau) {
                    double mean = 0.0, variance = 0.0;
                    const double log = log_density(tau, mean, variance);
                    return std::exp(log - top) * f(tau, mean, variance);
                },
                0.0, 12.0 * scale, 1e-12);
        };
        return integrate(value) / integrate([](double, double, double) { return 1.0; });
    }
};

const RollingPrior kPrior{.0015, .0003, .0001};
const Scalar kScalar{kPrior.difference_sd, kPrior.between_laboratories,
                     kPrior.specimen_sd};

// Four laboratories, four products, one laboratory with two blocks, one product reached
// only through another.
std::vector<Cell> make_network() {
    return {{0, 0, 0, .0040, 1e-8}, {0, 0, 1, .0036, 1e-8}, {0, 0, 2, .0034, 2e-8},
            {1, 1, 0, .0051, 2e-8}, {1, 1, 2, .0044, 1e-8}, {2, 2, 0, .0039, 1e-8},
            {2, 2, 1, .0037, 1e-8}, {2, 3, 0, .0044, 1e-8}, {2, 3, 1, .0039, 3e-8},
            {3, 4, 2, .0047, 1e-8}, {3, 4, 3, .0049, 1e-8}};
}

}  // namespace

TEST_CASE("two products pool as the scalar formula integrated by another rule") {
    const RollingPosterior posterior(make_two_products(), 2, kPrior);
    const double mean = kScalar.average([](double, double m, double) { return m; });
    const double variance = kScalar.average(
        [&](double, double m, double v) { return v + (m - mean) * (m - mean); });
    CHECK(posterior.mean()(0) == Approx(mean).epsilon(1e-8));
    CHECK(posterior.covariance()(0, 0) == Approx(variance).epsilon(1e-7));
    CHECK(posterior.mean_tau() == Approx(kScalar.average([](double t, double, double) {
                                      return t;
                                  })).epsilon(1e-7));
}

TEST_CASE("intervals hold their share of the scalar posterior") {
    const RollingPosterior posterior(make_two_products(), 2, kPrior);
    const auto share_below = [&](double x, double with_tau) {
        return kScalar.average([&](double tau, double m, double v) {
            const double sd = std::sqrt(v + with_tau * tau * tau);
            return 0.5 * std::erfc((m - x) / sd / std::sqrt(2.0));
        });
    };
    const auto could_be = posterior.find_interval(1, .9, Of::kDifference);
    CHECK(share_below(could_be.low, 0) == Approx(.05).epsilon(1e-7));
    CHECK(share_below(could_be.high, 0) == Approx(.95).epsilon(1e-8));
    const auto next = posterior.find_interval(1, .9, Of::kNextLaboratory);
    CHECK(share_below(next.low, 1) == Approx(.05).epsilon(1e-7));
    CHECK(next.high - next.low > could_be.high - could_be.low);
}

TEST_CASE("a scale far from the scatter of the tests is still integrated exactly") {
    for (const double scale : {1e-5, 1e-4, .005}) {
        RollingPrior prior = kPrior;
        prior.between_laboratories = scale;
        const Scalar scalar{prior.difference_sd, scale, prior.specimen_sd};
        const RollingPosterior posterior(make_two_products(), 2, prior);
        const double mean = scalar.average([](double, double m, double) { return m; });
        CHECK(posterior.mean()(0) == Approx(mean).epsilon(1e-7));
    }
}

// Bayes' theorem knows no yardstick: A - B is the same whichever product is number 0.
TEST_CASE("differences do not depend on the product compared with") {
    const RollingPosterior posterior(make_network(), 4, kPrior);
    std::vector<Cell> swapped = make_network();
    for (Cell& cell : swapped) {
        cell.product = cell.product == 0 ? 2 : cell.product == 2 ? 0 : cell.product;
    }
    const RollingPosterior other(swapped, 4, kPrior);
    const auto mean = posterior.mean(), mean2 = other.mean();
    const auto cov = posterior.covariance(), cov2 = other.covariance();
    CHECK(mean2(1) == Approx(-mean(1)).epsilon(1e-9));
    CHECK(mean2(0) == Approx(mean(0) - mean(1)).epsilon(1e-9));
    CHECK(cov2(0, 0) == Approx(cov(0, 0) + cov(1, 1) - 2 * cov(0, 1)).epsilon(1e-8));
    CHECK(cov2(2, 2) == Approx(cov(2, 2) + cov(1, 1) - 2 * cov(2, 1)).epsilon(1e-8));
}

TEST_CASE("the level of a laboratory and the order of tests do not matter") {
    const RollingPosterior posterior(make_network(), 4, kPrior);
    std::vector<Cell> moved = make_network();
    for (Cell& cell : moved) cell.value += .001 * cell.block;
    std::reverse(moved.begin(), moved.end());
    const RollingPosterior other(moved, 4, kPrior);
    CHECK((posterior.mean() - other.mean()).norm() < 1e-12);
    CHECK((posterior.covariance() - other.covariance()).norm() < 1e-16);
}

TEST_CASE("a product that one path reaches is less sure than the path's first step") {
    const auto covariance = RollingPosterior(make_network(), 4, kPrior).covariance();
    CHECK(covariance(2, 2) > covariance(1, 1));
    CHECK(covariance(2, 1) > 0.0);
}

TEST_CASE("a test repeated by one laboratory counts for less than by another") {
    std::vector<Cell> same = make_two_products(), another = same;
    same.push_back({0, 9, 0, .004, 1e-8});
    same.push_back({0, 9, 1, .0036, 1e-8});
    another.push_back({9, 9, 0, .004, 1e-8});
    another.push_back({9, 9, 1, .0036, 1e-8});
    const double sd_same = RollingPosterior(same, 2, kPrior).covariance()(0, 0);
    const double sd_another = RollingPosterior(another, 2, kPrior).covariance()(0, 0);
    CHECK(sd_another < sd_same);
    CHECK(sd_same < RollingPosterior(make_two_products(), 2, kPrior).covariance()(0, 0));
}

TEST_CASE("shares of tau add up to one") {
    const RollingPosterior posterior(make_network(), 4, kPrior);
    double sum = 0.0;
    for (const PosteriorNode& node : posterior.nodes()) sum += node.share;
    CHECK(sum == Approx(1.0).epsilon(1e-12));
}

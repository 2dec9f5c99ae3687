#include "sampling/sampler.h"

#include <algorithm>
#include <array>
#include <boost/random/beta_distribution.hpp>
#include <boost/random/gamma_distribution.hpp>
#include <boost/random/lognormal_distribution.hpp>
#include <boost/random/mersenne_twister.hpp>
#include <boost/random/triangle_distribution.hpp>
#include <boost/random/weibull_distribution.hpp>
#include <cmath>
#include <cstring>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "base/lane_normal.h"
#include "chance/make_distribution.h"
#include "sampling/score_cells.h"
#include "statistical_checks.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::chance;
using namespace flattail::sampling;
using namespace flattail::test;

namespace {

using Block = std::array<double, kLanes>;

const VectorMath& widest_math() { return vector_math(base::detect_instruction_set()); }

struct NamedDistribution {
    std::string name;
    Distribution distribution;
};

std::vector<NamedDistribution> list_tabled() {
    return {{"gamma cv .5", make_gamma(1, 0.5)},
            {"gamma cv 1", make_gamma(1, 1)},
            {"gamma cv 1.8", make_gamma(1, 1.8)},
            {"beta hill", make_beta(6, 3)},
            {"beta bath", make_beta(0.5, 0.5)},
            {"beta sharp", make_beta(2000, 900)},
            {"cut gamma", cut_distribution(make_gamma(1, 0.5), 0.4, 2)},
            {"von Mises wide", make_von_mises(3, 0.5)},
            {"von Mises", make_von_mises(3, 8)},
            {"von Mises tight", make_von_mises(3, 16)},
            {"von Mises sharp", make_von_mises(3, 200)}};
}

std::vector<NamedDistribution> list_exact() {
    return {{"point", make_point(3)},
            {"normal", make_normal(3, 2)},
            {"lognormal", make_lognormal_median_spread(300, 1.4)},
            {"split normal", make_split_normal({6, 8, 14})},
            {"split lognormal", make_split_lognormal({6, 8, 14})},
            {"uniform", make_uniform(-2, 5)},
            {"Weibull", make_weibull(1.8, 5)},
            {"triangular", make_triangular(1, 4, 5)},
            {"wrapped normal", make_wrapped_normal(0.3, 0.5)},
            {"table", make_table({1, 2, 2.5, 7})},
            {"samples", make_samples({5, 1, 9})},
            {"yes or no", make_bernoulli(0.3)},
            {"cut normal", cut_distribution(make_normal(3, 2), 0, 4)},
            {"cut Weibull", cut_distribution(make_weibull(2, 5), 1, 9)},
            {"cut table", cut_distribution(make_table({1, 2, 2.5, 7}), 1.5, 6)}};
}

std::vector<double> draw_sample(const Distribution& d, int blocks,
                                std::uint32_t draw = 0) {
    const Sampler sampler(d, widest_math());
    std::vector<double> sample(static_cast<std::size_t>(blocks) * kLanes);
    for (std::size_t day = 0; day < sample.size(); day += kLanes) {
        sampler.fill({77, hash_input_name("sampler"), draw}, day, sample.data() + day);
    }
    return sample;
}

/// The largest distance between the cubics and the exact value at a score, in sd, over
/// the whole table.
double measure_table_error(const Distribution& d) {
    constexpr int kBlocksTried = 100;
    const Sampler sampler(d, widest_math());
    const KeptShare kept = find_kept_share(d);
    const double centre = is_direction(d.shape) ? d.a : 0.0;
    double worst = 0.0;
    for (int block = 0; block < kBlocksTried; ++block) {
        Block score, value;
        for (std::size_t i = 0; i < kLanes; ++i) {
            const double share = (block + static_cast<double>(i) / kLanes) / kBlocksTried;
            score[i] = (2.0 * share - 1.0) * kLastTabledScore;
        }
        sampler.fill_from_scores(score.data(), value.data());
        for (std::size_t i = 0; i < kLanes; ++i) {
            const double exact = find_value_at_score(d, kept, score[i]);
            double error = value[i] - centre - exact;
            if (is_direction(d.shape)) error = std::remainder(error, base::lane::kTwoPi);
            worst = std::max(worst, std::abs(error));
        }
    }
    return worst / sd(d);
}

template <class BoostLaw>
std::vector<double> draw_from_boost(BoostLaw law, std::size_t count) {
    boost::random::mt19937 engine(5489);
    std::vector<double> sample(count);
    for (double& x : sample) x = law(engine);
    return sample;
}

constexpr int kBlocks = 3000;  // 192,000 values
constexpr std::size_t kCount = 192000;

}  // namespace

TEST_CASE("shapes with a closed quantile are sampled to the bit") {
    for (const auto& [name, distribution] : list_exact()) {
        CAPTURE(name);
        const std::vector<double> sample = draw_sample(distribution, 20);
        for (std::size_t day = 0; day < sample.size(); ++day) {
            const Address address{77, hash_input_name("sampler"), day, 0};
            if (distribution.shape == Shape::kSamples) {
                // Rows keep their order, so that columns of one file stay together.
                const auto rows = static_cast<double>(distribution.table.size());
                const auto row = static_cast<std::size_t>(rows * draw_uniform(address));
                REQUIRE(sample[day] == distribution.table[row]);
                continue;
            }
            REQUIRE(sample[day] == quantile(distribution, draw_uniform(address)));
        }
    }
}

TEST_CASE("tabled shapes stay within the stated error of their quantile") {
    for (const auto& [name, distribution] : list_tabled()) {
        const double error = measure_table_error(distribution);
        CAPTURE(name, error);
        CHECK(error <= (is_direction(distribution.shape) ? 1e-6 : 1e-8));
        CHECK(error > 0.0);
    }
}

TEST_CASE("scores beyond the table are computed exactly") {
    const Distribution d = make_gamma(1, 1);
    Block z{}, value;
    z[3] = 9.0;
    z[4] = -9.0;
    z[5] = 8.5;
    Sampler(d, widest_math()).fill_from_scores(z.data(), value.data());
    // Exponential of mean 1: -ln Phi(-9), Phi(-9) = 1.12858840595384e-19 and -log(1 -
    // same).
    CHECK(value[3] == Approx(-std::log(1.12858840595384e-19)).epsilon(1e-12));
    CHECK(value[4] == Approx(1.12858840595384e-19).epsilon(1e-10));
    CHECK(value[5] < value[3]);
}

TEST_CASE("every instruction set samples the same bits") {
    std::vector<NamedDistribution> all = list_tabled();
    for (auto& exact : list_exact()) all.push_back(exact);
    for (const auto& [name, distribution] : all) {
        const Sampler reference(distribution,
                                vector_math(base::InstructionSet::kBaseline));
        for (const auto set : base::supported_instruction_sets()) {
            const Sampler sampler(distribution, vector_math(set));
            CAPTURE(name, base::name_instruction_set(set));
            for (std::uint64_t first = 0; first < 20 * kLanes; first += kLanes) {
                Block expected, found;
                reference.fill({5, 6, 7}, first, expected.data());
                sampler.fill({5, 6, 7}, first, found.data());
                REQUIRE(std::memcmp(expected.data(), found.data(), sizeof found) == 0);
            }
        }
    }
}

TEST_CASE("a single value, listed days and a block agree") {
    std::vector<std::uint64_t> days(kLanes);
    for (std::size_t i = 0; i < kLanes; ++i) days[i] = 1000 - 3 * i;
    for (const auto& [name, distribution] : list_tabled()) {
        const Sampler sampler(distribution, widest_math());
        Block listed;
        sampler.fill_at({1, 2, 3}, days.data(), listed.data());
        for (std::size_t i = 0; i < kLanes; ++i) {
            REQUIRE(listed[i] == sampler.value_of(draw_uniform({1, 2, days[i], 3})));
        }
    }
}

TEST_CASE("uniforms and their normal scores lead to the same value") {
    for (const auto& [name, distribution] : list_exact()) {
        const Sampler sampler(distribution, widest_math());
        Block u, z, from_uniforms, from_scores;
        widest_math().fill_uniform({3, 1, 4}, 0, u.data());
        widest_math().normal_quantile(u.data(), z.data());
        sampler.fill_from_uniforms(u.data(), from_uniforms.data());
        sampler.fill_from_scores(z.data(), from_scores.data());
        for (std::size_t i = 0; i < kLanes; ++i) {
            CAPTURE(name, u[i]);
            CHECK(from_scores[i] == Approx(from_uniforms[i]).epsilon(1e-12));
        }
    }
}

TEST_CASE("values rise with the score, through cells and beyond") {
    for (const auto& [name, distribution] : list_tabled()) {
        if (is_direction(distribution.shape)) continue;
        const Sampler sampler(distribution, widest_math());
        double before = -std::numeric_limits<double>::infinity();
        for (int block = 0; block < 300; ++block) {
            Block z, value;
            for (std::size_t i = 0; i < kLanes; ++i) {
                z[i] = -9.0 + 18.0 * (block * 64 + static_cast<int>(i)) / (300.0 * 64.0);
            }
            sampler.fill_from_scores(z.data(), value.data());
            for (const double x : value) {
                CAPTURE(name);
                REQUIRE(x >= before - 1e-15 * std::abs(before));
                before = x;
            }
        }
    }
}

TEST_CASE("samples follow their own distribution function") {
    for (const auto& named : {list_tabled(), list_exact()}) {
        for (const auto& [name, distribution] : named) {
            const Shape shape = distribution.shape;
            if (shape == Shape::kPoint || shape == Shape::kSamples) continue;
            if (shape == Shape::kBernoulli || is_direction(shape)) continue;
            CAPTURE(name);
            const auto share = [&d = distribution](double x) { return cdf(d, x); };
            CHECK(follows(draw_sample(distribution, 300), share));
        }
    }
}

TEST_CASE("samples have the stated mean") {
    for (const auto& named : {list_tabled(), list_exact()}) {
        for (const auto& [name, distribution] : named) {
            if (is_direction(distribution.shape)) continue;
            CAPTURE(name);
            const double spread = std::max(sd(distribution), 1e-300);
            CHECK(
                has_mean(draw_sample(distribution, kBlocks), mean(distribution), spread));
        }
    }
}

TEST_CASE("von Mises samples have the tabled mean resultant length") {
    // I1/I0 at 2, mpmath; one cosine has variance (1 + I2/I0)/2 - R^2 with I2/I0 = 1 - R.
    const double resultant = .697774657964;
    std::vector<double> cosines;
    for (const double x : draw_sample(make_von_mises(1, 2), kBlocks)) {
        cosines.push_back(std::cos(x - 1));
    }
    const double variance = (1 + (1 - resultant)) / 2 - resultant * resultant;
    CHECK(has_mean(cosines, resultant, std::sqrt(variance)));
    CHECK_FALSE(has_mean(cosines, resultant * 1.01, std::sqrt(variance)));
}

TEST_CASE("samples agree with an independent generator") {
    CHECK(follow_the_same(
        draw_sample(make_gamma(1.5, 0.8), kBlocks),
        draw_from_boost(boost::random::gamma_distribution<>(1 / .64, .96), kCount)));
    CHECK(follow_the_same(
        draw_sample(make_beta(2.5, 7), kBlocks),
        draw_from_boost(boost::random::beta_distribution<>(2.5, 7), kCount)));
    CHECK(follow_the_same(
        draw_sample(make_weibull(1.7, 6), kBlocks),
        draw_from_boost(boost::random::weibull_distribution<>(1.7, 6), kCount)));
    CHECK(follow_the_same(
        draw_sample(make_triangular(1, 4, 5), kBlocks),
        draw_from_boost(boost::random::triangle_distribution<>(1, 4, 5), kCount)));
    CHECK(follow_the_same(draw_sample(make_lognormal_median_spread(300, 1.4), kBlocks),
                          draw_from_boost(boost::random::lognormal_distribution<>(
                                              std::log(300.0), std::log(1.4)),
                                          kCount)));
}

TEST_CASE("twin: a spread five per cent too wide and a mean off by two are found") {
    const Distribution d = make_gamma(1.5, 0.8);
    CHECK_FALSE(follow_the_same(
        draw_sample(make_gamma(1.5, 0.84), kBlocks),
        draw_from_boost(boost::random::gamma_distribution<>(1 / .64, .96), kCount)));
    CHECK_FALSE(follows(draw_sample(make_gamma(1.5, 0.84), kBlocks),
                        [&d](double x) { return cdf(d, x); }));
    CHECK_FALSE(has_mean(draw_sample(make_gamma(1.53, 0.8), kBlocks), 1.5, sd(d)));
}

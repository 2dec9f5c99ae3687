#include "sampling/correlated.h"

#include <array>
#include <cmath>
#include <vector>

#include "sampling/address.h"
#include "sampling/vector_math.h"
#include "statistical_checks.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::sampling;
using namespace flattail::test;

namespace {

const std::vector<double> kThree{1.0, 0.6, -0.3, 0.6, 1.0, 0.2, -0.3, 0.2, 1.0};

std::vector<std::vector<double>> draw_dependent(const std::vector<double>& matrix,
                                                int size, int blocks) {
    const CorrelatedScores scores(matrix, size);
    const VectorMath& math = vector_math(base::detect_instruction_set());
    std::vector<std::vector<double>> drawn(static_cast<std::size_t>(size));
    for (auto& column : drawn) column.resize(static_cast<std::size_t>(blocks) * kLanes);
    for (std::size_t day = 0; day < drawn[0].size(); day += kLanes) {
        std::vector<double*> place;
        for (std::size_t input = 0; input < drawn.size(); ++input) {
            place.push_back(drawn[input].data() + day);
            math.fill_normal({11, static_cast<std::uint32_t>(input), 0}, day,
                             place.back());
        }
        scores.apply(place.data());
    }
    return drawn;
}

/// Null: jointly normal, correlation rho. x y has mean rho and variance 1 + rho^2.
bool has_correlation(const std::vector<double>& x, const std::vector<double>& y,
                     double rho) {
    std::vector<double> products(x.size());
    for (std::size_t i = 0; i < x.size(); ++i) products[i] = x[i] * y[i];
    return has_mean(products, rho, std::sqrt(1.0 + rho * rho));
}

}  // namespace

TEST_CASE("dependent scores have the correlations asked for and stay standard normal") {
    const auto drawn = draw_dependent(kThree, 3, 2000);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(has_mean(drawn[i], 0.0, 1.0));
        CHECK(follows(drawn[i],
                      [](double x) { return 0.5 * std::erfc(-x / std::sqrt(2.0)); }));
        for (std::size_t j = 0; j < i; ++j) {
            CHECK(has_correlation(drawn[i], drawn[j], kThree[3 * i + j]));
            // Twin: a correlation .02 off, at least 6 standard errors here.
            CHECK_FALSE(has_correlation(drawn[i], drawn[j], kThree[3 * i + j] + 0.02));
        }
    }
}

TEST_CASE("a worked factor: .6 makes .6 of one and .8 of the other") {
    std::array<double, kLanes> first{}, second{};
    first[0] = 1.0;
    second[1] = 1.0;
    std::array<double*, 2> blocks{first.data(), second.data()};
    CorrelatedScores({1.0, 0.6, 0.6, 1.0}, 2).apply(blocks.data());
    CHECK(first[0] == 1.0);
    CHECK(second[0] == Approx(0.6).epsilon(1e-15));
    CHECK(second[1] == Approx(0.8).epsilon(1e-15));
}

TEST_CASE("an input may copy another or mirror it") {
    const std::vector<double> matrix{1, 1, -1, 1, 1, -1, -1, -1, 1};
    const auto drawn = draw_dependent(matrix, 3, 2);
    for (std::size_t i = 0; i < drawn[0].size(); ++i) {
        CHECK(drawn[1][i] == Approx(drawn[0][i]).epsilon(1e-14));
        CHECK(drawn[2][i] == Approx(-drawn[0][i]).epsilon(1e-14));
    }
}

#include "findings/sample/estimate.h"

#include <vector>

#include "findings/sample/means.h"
#include "support/catch.h"

using namespace flattail::findings;

TEST_CASE("the 95 % factor is the tabulated 1.959964") {
    // Any normal table; NIST/SEMATECH e-Handbook 1.3.6.7.1.
    CHECK(normal_factor(0.95) == Approx(1.959963985).epsilon(1e-9));
    CHECK(normal_factor(0.99) == Approx(2.575829304).epsilon(1e-9));
    const Interval limits = interval_of({100, 2});
    CHECK(limits.low == Approx(96.08007203));
    CHECK(limits.high == Approx(103.91992797));
}

TEST_CASE("equal weights count fully and one heavy day counts as one") {
    const std::vector<double> equal(7, 3.0);
    CHECK(effective_size({equal, {}}) == Approx(7));
    const std::vector<double> lone{0, 0, 5, 0};
    CHECK(effective_size({lone, {}}) == Approx(1));
    // (1 + 2 + 3)^2 / (1 + 4 + 9), by hand from Kish 1965.
    const std::vector<double> uneven{1, 2, 3};
    CHECK(effective_size({uneven, {}}) == Approx(36.0 / 14.0));
}

TEST_CASE("the error of an unweighted mean is the textbook s over root n") {
    const std::vector<double> values{2, 4, 4, 4, 5, 5, 7, 9}, ones(8, 1.0);
    const Estimate mean = estimate_mean(values, {ones, {}});
    CHECK(mean.value == Approx(5));
    CHECK(mean.standard_error == Approx(std::sqrt(32.0 / 7.0 / 8.0)));
}

TEST_CASE("the error of a stratified mean is Cochran's sum over strata") {
    // Two strata of shares .9 and .1, sampled 4 and 4 times (Cochran 1977, chapter 5):
    // mean sum W_h m_h, variance sum W_h^2 s_h^2 / n_h.
    const std::vector<double> values{1, 2, 3, 4, 10, 20, 30, 40};
    const std::vector<double> weight{.9 / 4, .9 / 4, .9 / 4, .9 / 4,
                                     .1 / 4, .1 / 4, .1 / 4, .1 / 4};
    const std::vector<std::uint8_t> stratum{0, 0, 0, 0, 1, 1, 1, 1};
    const Estimate mean = estimate_mean(values, {weight, stratum});
    CHECK(mean.value == Approx(.9 * 2.5 + .1 * 25));
    const double variance = .81 * (5.0 / 3.0) / 4 + .01 * (500.0 / 3.0) / 4;
    CHECK(mean.standard_error == Approx(std::sqrt(variance)));
    // Forgetting the strata gives another, larger error.
    CHECK(estimate_mean(values, {weight, {}}).standard_error > 1.2 * mean.standard_error);
}

TEST_CASE("neither the scale of the weights nor the names of the strata matter") {
    const std::vector<double> values{3, 1, 4, 1, 5, 9}, weight{1, 2, 1, 3, 1, 2};
    std::vector<double> scaled;
    for (const double w : weight) scaled.push_back(w * 1e-3);
    const std::vector<std::uint8_t> a{0, 0, 0, 1, 1, 1}, b{255, 255, 255, 7, 7, 7};
    const Estimate first = estimate_mean(values, {weight, a});
    const Estimate second = estimate_mean(values, {scaled, b});
    CHECK(first.value == Approx(second.value));
    CHECK(first.standard_error == Approx(second.standard_error));
}

TEST_CASE("a stratum with one day still adds to the error") {
    const std::vector<double> values{1, 1, 1, 9}, weight(4, 1.0);
    const std::vector<std::uint8_t> stratum{0, 0, 0, 1};
    CHECK(estimate_mean(values, {weight, stratum}).standard_error == Approx(1.5));
}

#include <cmath>
#include <random>
#include <vector>

#include "findings/sample/means.h"
#include "support/catch.h"

using namespace flattail::findings;

TEST_CASE("the spread of the certified NumAcc4 data is .1") {
    // NIST StRD NumAcc4: 10000000.2 and 500 pairs (10000000.1, 10000000.3); n - 1 inside.
    std::vector<double> values{10000000.2};
    for (int i = 0; i < 500; ++i) values.insert(values.end(), {10000000.1, 10000000.3});
    const std::vector<double> weight(values.size(), 1.0);
    const double n = static_cast<double>(values.size());
    const double sd = estimate_sd(values, {weight, {}}).value * std::sqrt(n / (n - 1.0));
    CHECK(sd == Approx(0.1).epsilon(1e-7));
}

TEST_CASE("the error of a spread is that of a normal sample, sd / sqrt(2 n)") {
    std::mt19937_64 random(11);
    std::normal_distribution<double> normal(9600.0, 120.0);
    std::vector<double> values(40000);
    for (double& value : values) value = normal(random);
    const std::vector<double> weight(values.size(), 1.0);
    const Estimate sd = estimate_sd(values, {weight, {}});
    const double error = 120.0 / std::sqrt(2.0 * 40000.0);
    // Relative error of the error: sqrt(14 / n) / 2 = 1 %; 4.9 of them.
    CHECK(sd.standard_error == Approx(error).epsilon(0.049));
    CHECK(std::fabs(sd.value - 120.0) < 4.9 * error);
    CHECK_FALSE(sd.standard_error == Approx(2.0 * error).epsilon(0.049));
}

TEST_CASE("values without spread have none, and no error") {
    const std::vector<double> values(10, 5.0), weight(10, 1.0);
    const Estimate sd = estimate_sd(values, {weight, {}});
    CHECK(sd.value == 0.0);
    CHECK(sd.standard_error == 0.0);
}

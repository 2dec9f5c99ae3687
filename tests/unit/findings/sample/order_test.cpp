#include "findings/sample/order.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <random>

#include "support/catch.h"

using namespace flattail::findings;

namespace {

std::vector<std::uint32_t> sort_stably(const std::vector<double>& values) {
    std::vector<std::uint32_t> order(values.size());
    std::iota(order.begin(), order.end(), 0u);
    std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        return values[a] < values[b];
    });
    return order;
}

}  // namespace

TEST_CASE("the order is the standard library's stable order") {
    std::mt19937_64 random(11);
    std::normal_distribution<double> normal(9500, 80);
    for (const std::size_t days : {1u, 2u, 3u, 1000u, 20000u}) {
        std::vector<double> values(days);
        for (double& value : values) {
            value = normal(random);
            if (random() % 4 == 0) value = std::floor(value);  // many ties
            if (random() % 50 == 0) value = std::numeric_limits<double>::infinity();
        }
        REQUIRE(order_by_value(values) == sort_stably(values));
    }
}

TEST_CASE("negative, zero, tiny and infinite values find their places") {
    const double inf = std::numeric_limits<double>::infinity();
    const std::vector<double> values{1.5,    -0.0, inf,     -2,   0.0,
                                     5e-324, -inf, -5e-324, 1e308};
    CHECK(order_by_value(values) == sort_stably(values));
}

TEST_CASE("no days have no order") { CHECK(order_by_value({}).empty()); }

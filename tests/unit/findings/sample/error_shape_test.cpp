// Moments of the error of a mean, against closed forms.
#include "findings/sample/error_shape.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <cmath>

#include "findings/sample/tail.h"
#include "support/catch.h"

using namespace flattail::findings;

TEST_CASE("a count of rare events leans like a Poisson count and knows its variance") {
    // n events on many days: skewness 1 / sqrt(n), and no doubt beyond the count's own.
    for (const int n : {4, 25, 100}) {
        ErrorShape shape;
        for (int day = 0; day < 1000000; ++day) shape.add(0, day < n ? 1.0 : 0.0);
        CHECK(shape.variance() == Approx(n).epsilon(1e-3));
        CHECK(shape.skewness() == Approx(1 / std::sqrt(n)).epsilon(1e-3));
        CHECK(shape.freedom() > 1e5);
    }
}

TEST_CASE(
    "terms of one size either way do not lean, and strata have means of their own") {
    ErrorShape shape;
    for (int day = 0; day < 1000; ++day) {
        shape.add(1, day % 2 == 0 ? 7.0 : 9.0);
        shape.add(2, day % 2 == 0 ? -3.0 : -1.0);
    }
    CHECK(shape.variance() == Approx(2000).epsilon(2e-3));
    CHECK(shape.skewness() == Approx(0).margin(1e-9));
    // Kurtosis 1 / days.
    CHECK(shape.freedom() == Approx(4000).epsilon(5e-3));
}

TEST_CASE("pieces put together are the whole") {
    ErrorShape first, second, whole;
    for (int day = 0; day < 100; ++day) {
        const double term = day * day % 17;
        (day < 40 ? first : second).add(3, term);
        whole.add(3, term);
    }
    first.add(second);
    CHECK(first.variance() == Approx(whole.variance()));
    CHECK(first.skewness() == Approx(whole.skewness()));
    CHECK(first.freedom() == Approx(whole.freedom()));
}

TEST_CASE("limits that lean like a count are the count's to half an event") {
    using boost::math::chi_squared;
    for (const double n : {3.0, 10.0, 60.0}) {
        const double days = 1e5;
        const Estimate chance{n / days, std::sqrt(n) / days, 1 / std::sqrt(n)};
        const Interval found = chance_interval(chance, days);
        // Garwood 1936: never less than 95 %, so a little wider.
        const double low = .5 * quantile(chi_squared(2 * n), .025);
        const double high = .5 * quantile(chi_squared(2 * n + 2), .975);
        CHECK(found.low * days > low);
        CHECK(found.low * days < low + .5);
        CHECK(found.high * days < high);
        CHECK(found.high * days > high - 1);
    }
}

TEST_CASE(
    "a chance that leans down has the mirrored limits, and a doubtful one wider ones") {
    const Interval up = chance_interval({.3, .01, .4}, 1000);
    const Interval down = chance_interval({.7, .01, -.4}, 1000);
    CHECK(down.low == Approx(1 - up.high));
    CHECK(down.high == Approx(1 - up.low));
    CHECK(up.high - .3 > .3 - up.low);
    const Interval doubtful = chance_interval({.3, .01, .4, 5}, 1000);
    // Student's 2.571 with 5 degrees of freedom (NIST handbook 1.3.6.7.2) over 1.960.
    CHECK((doubtful.high - .3) / (up.high - .3) == Approx(2.571 / 1.960).epsilon(1e-3));
}

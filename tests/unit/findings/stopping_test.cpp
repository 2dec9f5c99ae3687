#include "findings/stopping.h"

#include <limits>
#include <vector>

#include "support/catch.h"

using namespace flattail::findings;

TEST_CASE("looks come at 4096 days and every doubling, and at the last day") {
    const StoppingRule rule{1, 100000};
    std::vector<std::uint64_t> looks;
    for (std::uint64_t days = 0; days < rule.most_days;)
        looks.push_back(days = next_look(rule, days));
    CHECK(looks == std::vector<std::uint64_t>{4096, 8192, 16384, 32768, 65536, 100000});
    CHECK(next_look(rule, 100000) == 100000);
    CHECK(next_look({1, 1000}, 0) == 1000);
}

TEST_CASE("riding stops when the half-width is small enough, and not before") {
    const StoppingRule rule{5, 100000};
    CHECK(decide_stopping(rule, 4096, 5.1) == StoppingReason::kGoOn);
    CHECK(decide_stopping(rule, 4096, 5.0) == StoppingReason::kPreciseEnough);
    CHECK(decide_stopping(rule, 2048, 0.1) == StoppingReason::kGoOn);
    CHECK(decide_stopping(rule, 100000, 9) == StoppingReason::kMostDaysReached);
}

TEST_CASE("an unknown half-width never passes for a small one") {
    const StoppingRule rule{5, 100000};
    const double inf = std::numeric_limits<double>::infinity();
    const double unknown = std::numeric_limits<double>::quiet_NaN();
    CHECK(decide_stopping(rule, 8192, inf) == StoppingReason::kGoOn);
    CHECK(decide_stopping(rule, 8192, unknown) == StoppingReason::kGoOn);
    CHECK(decide_stopping({0, 100000}, 8192, 0) == StoppingReason::kGoOn);
}

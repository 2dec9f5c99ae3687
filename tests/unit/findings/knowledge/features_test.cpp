#include "findings/knowledge/features.h"

#include <vector>

#include "support/catch.h"

using namespace flattail::findings;

TEST_CASE("terms have places of their own") {
    const KnowledgeFeatures features{3, {{0, 2}, {1, 2}}};
    CHECK(features.size() == 9);
    CHECK(features.linear(0) == 1);
    CHECK(features.square(2) == 6);
    CHECK(features.product(1) == 8);
}

TEST_CASE("learning nothing keeps the constant, learning all keeps everything") {
    const KnowledgeFeatures features{2, {{0, 1}}};
    const std::vector<double> nothing{0, 0}, all{1, 1}, half{.25, 1};
    CHECK(learnt_share(features, nothing) == std::vector<double>{1, 0, 0, 0, 0, 0});
    CHECK(learnt_share(features, all) == std::vector<double>(6, 1.0));
    CHECK(learnt_share(features, half) == std::vector<double>{1, .5, 1, .25, 1, .5});
}

TEST_CASE("scores by rank are van der Waerden's") {
    // Normal quantiles at rank/(n + 1): for three values at 1/4, 1/2, 3/4.
    const std::vector<double> values{30, 10, 20};
    const std::vector<double> scores = normal_scores_by_rank(values);
    CHECK(scores[0] == Approx(.674489750196));
    CHECK(scores[1] == Approx(-.674489750196));
    CHECK(scores[2] == Approx(0).margin(1e-12));
    const std::vector<double> tied{1, 5, 5, 9}, of_ties = normal_scores_by_rank(tied);
    CHECK(of_ties[1] == of_ties[2]);
    CHECK(of_ties[1] == Approx(0).margin(1e-12));
}

#include "findings/scores.h"

#include <random>
#include <vector>

#include "support/catch.h"

using namespace flattail::findings;

TEST_CASE("the score of a normal forecast has the published values") {
    // Gneiting & Raftery 2007, closed form; values computed with mpmath.
    CHECK(score_crps_normal(0, 1, 0) == Approx(.233694977255).epsilon(1e-11));
    CHECK(score_crps_normal(0, 1, 1) == Approx(.602441357628).epsilon(1e-11));
    CHECK(score_crps_normal(0, 1, 2) == Approx(1.45279182169).epsilon(1e-11));
    CHECK(score_crps_normal(9600, 120, 9750) == Approx(94.4380983676).epsilon(1e-11));
    CHECK(probability_transform_normal(9600, 120, 9750) ==
          Approx(.894350226333).epsilon(1e-11));
}

TEST_CASE("the score of an ensemble has its plain and its fair value") {
    // Gneiting & Raftery 2007 and Ferro 2014, by hand: mean miss 110, half the mean
    // distance of two members 68.8 with and 86 without the pairs of a member with itself.
    const std::vector<double> members{9540, 9560, 9600, 9700, 9900};
    CHECK(score_crps_ensemble(members, 9650, EnsembleScore::kPlain) == Approx(41.2));
    CHECK(score_crps_ensemble(members, 9650, EnsembleScore::kFair) == Approx(24.0));
}

TEST_CASE("integrating the steps is the same score, with weights as copies") {
    const std::vector<double> members{9540, 9560, 9600, 9700, 9900}, ones(5, 1.0);
    const WeightedSample forecast(members, {ones, {}});
    CHECK(score_crps(forecast, 9650) == Approx(41.2));
    for (const double observed : {9000.0, 9540.0, 9610.0, 9900.0, 11000.0})
        CHECK(score_crps(forecast, observed) ==
              Approx(score_crps_ensemble(members, observed, EnsembleScore::kPlain)));
    const std::vector<double> values{9600, 9540}, weight{2, 1};
    const std::vector<double> copies{9540, 9600, 9600};
    const WeightedSample weighted(values, {weight, {}});
    CHECK(score_crps(weighted, 9570) ==
          Approx(score_crps_ensemble(copies, 9570, EnsembleScore::kPlain)));
}

TEST_CASE("the transform counts half of what equals the observation") {
    const std::vector<double> members{1, 2, 2, 3}, ones(4, 1.0);
    const WeightedSample forecast(members, {ones, {}});
    CHECK(probability_transform(forecast, 2) == Approx(.5));
    CHECK(probability_transform(forecast, 0) == 0);
    CHECK(probability_transform(forecast, 3) == Approx(.875));
    CHECK(probability_transform(forecast, 4) == Approx(1));
}

TEST_CASE("the Brier score falls into its three parts") {
    // Murphy 1973; (f, n, hits) (.1,20,1)(.3,10,4)(.7,10,6)(.9,10,10):
    // .122 = .007 - .1286 + .2436.
    const std::vector<ForecastBin> bins{
        {.1, 20, 1}, {.3, 10, 4}, {.7, 10, 6}, {.9, 10, 10}};
    const BrierScore brier = score_brier(bins);
    CHECK(brier.score == Approx(.122));
    CHECK(brier.reliability == Approx(.007));
    CHECK(brier.resolution == Approx(.1286));
    CHECK(brier.uncertainty == Approx(.2436));
    CHECK(
        brier.score ==
        Approx(brier.reliability - brier.resolution + brier.uncertainty).epsilon(1e-12));
}

TEST_CASE("saying the truth scores best") {
    // A proper score: the mean score of the true law is smallest (Gneiting & Raftery
    // 2007).
    // N(0,1) under forecast sd s: expected score known to be smallest at s = 1; with 4000
    // observations the differences to .7 and 1.4 (.03 and .02) are many errors away.
    std::mt19937_64 random(4);
    std::normal_distribution<double> normal;
    double narrow = 0, right = 0, wide = 0;
    for (int i = 0; i < 4000; ++i) {
        const double y = normal(random);
        narrow += score_crps_normal(0, .7, y);
        right += score_crps_normal(0, 1, y);
        wide += score_crps_normal(0, 1.4, y);
    }
    CHECK(right < narrow);
    CHECK(right < wide);
}

// Were the forecasts right? Scores of what was said against what came.
#pragma once

#include <span>
#include <vector>

#include "findings/sample/weighted_sample.h"

namespace flattail::findings {

/// Continuous ranked probability score of a normal forecast; smaller is better.
/// Source: METHOD 10.25 (Gneiting & Raftery 2007)
double score_crps_normal(double mean, double sd, double observed);

enum class EnsembleScore { kPlain, kFair };

/// CRPS of a few equal members; fair: as if there were endlessly many of them.
/// Range:   finite members, at least two for kFair
/// Source:  METHOD 10.26 (Gneiting & Raftery 2007; Ferro 2014)
double score_crps_ensemble(std::span<const double> members, double observed,
                           EnsembleScore kind);

/// CRPS of a weighted sample, by integrating the squared distance of the two steps.
double score_crps(const WeightedSample& forecast, double observed);

/// Share of the forecast below the observation, half of what equals it.
/// Source: Dawid 1984; with the middle of a step, Czado et al. 2009
double probability_transform(const WeightedSample& forecast, double observed);
double probability_transform_normal(double mean, double sd, double observed);

/// One stated chance, how often it was stated, and how often the event came.
struct ForecastBin {
    double chance = 0;
    double cases = 0;
    double hits = 0;
};

/// score = reliability - resolution + uncertainty.
/// Source: METHOD 10.27 (Brier 1950; Murphy 1973)
struct BrierScore {
    double score = 0;
    double reliability = 0;
    double resolution = 0;
    double uncertainty = 0;
};
BrierScore score_brier(std::span<const ForecastBin> bins);

}  // namespace flattail::findings

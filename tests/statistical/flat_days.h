// The example with exact answers: 90 km at 34 km/h, one flat per 1500 km, repairs
// lognormal with median 300 s and log-sd .35. Exact values by mpmath quadrature and FFT
// convolution.
#pragma once

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>
#include <vector>

#include "findings/sample/estimate.h"

namespace flattail::test {

inline constexpr double kRideTime = 9529.411764706;
inline constexpr double kMeanTime = 9548.548728804;  // unlimited spares
inline constexpr double kP95 = 9736.797844742;       // third flat ends the race
inline constexpr double kP99 = 9961.469373451;
inline constexpr double kWorstDelay95 = 353.37751107;       // average of the worst 5 %
inline constexpr double kChanceBeyond300 = .0299459008536;  // delay > 300 s and a finish
inline constexpr double kVariance = 6899.15509131;
inline constexpr double kVarianceWithin = 795.431842907;  // once the flats are counted
/// Chances of 0, 1, 2, 3 or more flats.
inline constexpr std::array<double, 4> kFlats{.941764533584, .0565058720151,
                                              .00169517616045, 3.44182402447e-5};

enum class Spares { kTwo, kUnlimited };

/// Days drawn plainly, or with the number of flats fixed in turn: of 16 days, 6 have
/// none, 6 one, 3 two and 1 three or more, weighted back to their chances.
class FlatDays {
  public:
    FlatDays(Spares spares, bool is_stratified, std::uint64_t seed)
        : spares_(spares), is_stratified_(is_stratified), random_(seed) {}

    void clear() {
        time_.clear();
        weight_.clear();
        stratum_.clear();
    }
    void grow_to(std::size_t days) {
        while (time_.size() < days) add_day();
    }
    void draw(std::size_t days) {
        clear();
        grow_to(days);
    }
    const std::vector<double>& time() const { return time_; }
    std::vector<double> delay() const {
        std::vector<double> delay;
        for (const double time : time_) delay.push_back(time - kRideTime);
        return delay;
    }
    findings::Design design() const {
        if (is_stratified_) return {weight_, stratum_};
        return {weight_, {}};
    }

  private:
    void add_day() {
        static constexpr std::array<std::uint8_t, 16> kTurn{0, 1, 0, 2, 1, 0, 1, 3,
                                                            0, 1, 2, 0, 1, 0, 1, 2};
        static constexpr std::array<double, 4> kDrawn{6 / 16., 6 / 16., 3 / 16., 1 / 16.};
        int flats = poisson_(random_);
        double weight = 1;
        if (is_stratified_) {
            const std::uint8_t stratum = kTurn[time_.size() % kTurn.size()];
            flats = stratum;
            weight = kFlats[stratum] / kDrawn[stratum];
            stratum_.push_back(stratum);
            // Three or more: a fourth is one such day in 67 and moves the mean by .0002
            // s.
        }
        double time = kRideTime;
        for (int flat = 0; flat < flats; ++flat) time += repair_(random_);
        if (flats > 2 && spares_ == Spares::kTwo)
            time = std::numeric_limits<double>::infinity();
        time_.push_back(time);
        weight_.push_back(weight);
    }

    Spares spares_;
    bool is_stratified_;
    std::mt19937_64 random_;
    std::poisson_distribution<int> poisson_{.06};
    std::lognormal_distribution<double> repair_{std::log(300.0), .35};
    std::vector<double> time_, weight_;
    std::vector<std::uint8_t> stratum_;
};

}  // namespace flattail::test

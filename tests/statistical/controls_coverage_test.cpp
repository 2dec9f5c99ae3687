// Do intervals of sharpened figures hold the exact answer 95 times in 100, with repairs
// that fail and days drawn by their flats?
#include <Eigen/Core>
#include <array>
#include <cmath>
#include <vector>

#include "findings/sample/controls.h"
#include "findings/sample/means.h"
#include "statistical/coverage.h"

using namespace flattail::findings;
using namespace flattail::test;

namespace {

// Nails .06 a race; each ends the day with chance .2, else costs 500 exp(.35 Z) s. A day
// that ends counts as 13,100 s, the legs take 9,500 + 45 Z s.
constexpr double kNails = .06, kEnds = .2, kNoFinish = 13100, kLegs = 9500, kLegsSd = 45;
const double kRepair = 500 * std::exp(.5 * .35 * .35);
// Ends and mended flats are independent Poisson counts: exact.
const double kFinishes = std::exp(-kNails * kEnds);
const double kMean =
    kFinishes * (kLegs + kNails * (1 - kEnds) * kRepair) + (1 - kFinishes) * kNoFinish;
constexpr std::array<int, 4> kShare{6, 6, 3, 1};  // of 16 days, with 0, 1, 2, 3 and more

struct Day {
    std::uint8_t stratum = 0;
    double weight = 1, judged = kLegs, surprise = 0, nails = 0, score = 0, ended = 0;
};

class Days {
  public:
    explicit Days(std::uint64_t seed) : random_(seed) {
        double left = 1, chance = std::exp(-kNails);
        for (int n = 0; n < 3; ++n) {
            chance_[static_cast<std::size_t>(n)] = chance;
            left -= chance;
            chance *= kNails / (n + 1);
        }
        chance_[3] = left;
    }

    Day draw(std::uint8_t stratum) {
        Day day;
        day.stratum = stratum;
        day.weight = chance_[stratum] * 16 / kShare[stratum];
        const int count = stratum < 3 ? stratum : draw_many();
        day.score = normal_(random_);
        double time = kLegs + kLegsSd * day.score;
        for (int nail = 0; nail < count && day.ended == 0; ++nail) {
            day.surprise -= kEnds;
            if (uniform_(random_) < kEnds) {
                day.ended = 1;
                day.surprise += 1;
            }
            time += 500 * std::exp(.35 * normal_(random_));
        }
        day.judged = day.ended > 0 ? kNoFinish : time;
        day.nails = day.weight * count - kNails;
        return day;
    }

  private:
    int draw_many() {
        // By inversion: three in all but one such day in 67.
        double left = uniform_(random_) * chance_[3];
        double chance = std::exp(-kNails) * kNails * kNails * kNails / 6;
        int count = 3;
        while (left > chance && count < 20) {
            left -= chance;
            chance *= kNails / ++count;
        }
        return count;
    }

    std::mt19937_64 random_;
    std::normal_distribution<double> normal_;
    std::uniform_real_distribution<double> uniform_;
    std::array<double, 4> chance_{};
};

struct Answer {
    Estimate mean, ends, plain_mean;
};

// `leaning`: added to the control of nails, which is then not zero on average.
Answer ask(Days& days, int count, double leaning) {
    std::vector<double> judged, ended, weight;
    std::vector<std::uint8_t> stratum;
    std::vector<Day> drawn;
    for (std::uint8_t h = 0; h < 4; ++h) {
        for (int i = 0; i < count * kShare[h]; ++i) {
            const Day day = days.draw(h);
            drawn.push_back(day);
            judged.push_back(day.judged);
            ended.push_back(day.ended);
            weight.push_back(day.weight);
            stratum.push_back(h);
        }
    }
    const Design design{weight, stratum};
    const Estimate mean = estimate_mean(judged, design),
                   ends = estimate_mean(ended, design);
    ControlledMeans sums(3, 2);
    for (std::size_t first = 0, end = 0; first < drawn.size(); first = end) {
        while (end < drawn.size() && stratum[end] == stratum[first]) ++end;
        const auto rows = static_cast<Eigen::Index>(end - first);
        Eigen::MatrixXd x(rows, 3), y(rows, 2);
        for (Eigen::Index i = 0; i < rows; ++i) {
            const Day& d = drawn[first + static_cast<std::size_t>(i)];
            x.row(i) << d.weight * d.surprise, d.nails + leaning, d.weight * d.score;
            y.row(i) << d.weight * (d.judged - mean.value),
                d.weight * (d.ended - ends.value);
        }
        sums.add(stratum[first], x, y);
    }
    const auto sharp = sums.solve(total_weight(design), {0, 1, 2}, {0, 1});
    return {{mean.value + sharp.correction(0), sharp.standard_error(0)},
            {ends.value + sharp.correction(1), sharp.standard_error(1)},
            mean};
}

}  // namespace

TEST_CASE("intervals of sharpened means and chances cover, with repairs that fail") {
    Days days(21);
    Cover of_mean, of_ends;
    double sharp = 0, plain = 0;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        const Answer answer = ask(days, 40, 0);
        of_mean.add(answer.mean, kMean);
        of_ends.add(answer.ends, 1 - kFinishes);
        sharp += answer.mean.standard_error;
        plain += answer.plain_mean.standard_error;
    }
    check_cover(of_mean);
    check_cover(of_ends);
    CHECK(sharp < .6 * plain);
}

TEST_CASE("a control that is not zero on average breaks the cover") {
    Days days(22);
    Cover of_mean;
    for (int repetition = 0; repetition < kRepetitions; ++repetition) {
        of_mean.add(ask(days, 40, .06 * kNails).mean, kMean);
    }
    CHECK_FALSE(is_95_percent(of_mean.held));
}

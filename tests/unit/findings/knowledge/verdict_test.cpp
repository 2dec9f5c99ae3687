#include "findings/knowledge/verdict.h"

#include <cmath>

#include "support/catch.h"
#include "unit/findings/knowledge/made_days.h"

using namespace flattail::findings;

namespace {

// Setup 1 is expected to save gain + spread x z.
MadeDays days_with(double gain, double spread) {
    const MadeLaw law{1, 2, 1, [=](const std::vector<double>& z, std::size_t k) {
                          return k == 0 ? 9500.0 : 9500 - gain - spread * z[0];
                      }};
    return make_days(law, 20000, 1);
}

Verdict judge(const MadeDays& days, VerdictRule rule = {}) {
    return reach_verdict(fit_days(days, {1, {}}), days.draws(), rule);
}

}  // namespace

TEST_CASE("the grades change at 95 and 75 % and below what matters") {
    CHECK(grade(.95, 20, 15) == Strength::kFirm);
    CHECK(grade(.9499, 20, 15) == Strength::kLeaning);
    CHECK(grade(.75, 20, 15) == Strength::kLeaning);
    CHECK(grade(.7499, 20, 15) == Strength::kTossUp);
    CHECK(grade(1, 14.9, 15) == Strength::kTossUp);
    CHECK(grade(1, 0, 0) == Strength::kTossUp);
}

TEST_CASE("the share that agrees is the normal chance of a gain") {
    // Phi(gain/spread): Phi(2) = .97725, Phi(1) = .84134, Phi(.5) = .69146.
    struct Case {
        double gain, spread, share;
        Strength strength;
    };
    for (const Case& c : {Case{40, 20, .97724987, Strength::kFirm},
                          Case{20, 20, .84134475, Strength::kLeaning},
                          Case{20, 40, .69146246, Strength::kTossUp}}) {
        const Verdict verdict = judge(days_with(c.gain, c.spread));
        CHECK(verdict.choice == 1);
        CHECK(verdict.strength == c.strength);
        CHECK(std::fabs(verdict.share_agreeing.value - c.share) <
              4.9 * verdict.share_agreeing.standard_error);
        CHECK(verdict.share_agreeing.standard_error < .01);
        CHECK(verdict.share_beats_against == Approx(verdict.share_agreeing.value));
        CHECK(std::fabs(verdict.margin.value - c.gain) <
              4.9 * std::hypot(c.spread, 1.5) / std::sqrt(20000.0));
    }
}

TEST_CASE("a sure gain too small to act on is a toss-up") {
    VerdictRule rule;
    rule.matters = 15;
    CHECK(judge(days_with(10, .5), rule).strength == Strength::kTossUp);
    CHECK(judge(days_with(20, .5), rule).strength == Strength::kFirm);
}

TEST_CASE("for a chance the larger is the better") {
    VerdictRule rule;
    rule.better = Better::kLarger;
    const Verdict verdict = judge(days_with(40, 20), rule);
    CHECK(verdict.choice == 0);
    CHECK(verdict.runner_up == 1);
    CHECK(verdict.margin.value > 0);
    CHECK(verdict.strength == Strength::kFirm);
}

TEST_CASE("two new setups alike split the draws, yet both beat the old one") {
    const MadeLaw law{
        2, 3, 1, [](const std::vector<double>& z, std::size_t k) {
            return k == 0 ? 9500 : k == 1 ? 9440 + 5 * z[0] : 9441 + 5 * z[1];
        }};
    const MadeDays days = make_days(law, 20000, 7);
    const Verdict verdict = reach_verdict(fit_days(days, {2, {}}), days.draws(), {});
    CHECK(verdict.choice == 1);
    CHECK(verdict.runner_up == 2);
    CHECK(verdict.share_agreeing.value == Approx(.556).margin(.03));  // Phi(1/sqrt 50)
    CHECK(verdict.share_beats_against == 1);
    CHECK(verdict.margin.value == Approx(60).epsilon(.02));
}

TEST_CASE("too few days to tell the setups apart are a toss-up, however few") {
    // Luck of sd 400 s on each side against a gain of 20 s.
    const MadeLaw law{1, 2, 400, [](const std::vector<double>&, std::size_t k) {
                          return k == 0 ? 9500.0 : 9480.0;
                      }};
    for (const std::size_t count : {1u, 5u, 64u, 65u, 500u}) {
        const MadeDays days = make_days(law, count, 3);
        const Verdict verdict = reach_verdict(fit_days(days, {1, {}}), days.draws(), {});
        CHECK(verdict.strength == Strength::kTossUp);
    }
}

TEST_CASE("one setup alone is its own runner-up and no recommendation") {
    MadeDays days = days_with(0, 1);
    days.response.resize(1);
    days.response_views.resize(1);
    const Verdict verdict = judge(days);
    CHECK(verdict.choice == 0);
    CHECK(verdict.runner_up == 0);
    CHECK(verdict.strength == Strength::kTossUp);
}

#include "findings/knowledge/fit.h"

#include <cmath>
#include <vector>

#include "support/catch.h"
#include "unit/findings/knowledge/made_days.h"

using namespace flattail::findings;

namespace {

MadeLaw polynomial(double luck_sd) {
    return {3, 2, luck_sd, [](const std::vector<double>& z, std::size_t k) {
                const double base = 9500 + 40 * z[0];
                return k == 0 ? base
                              : base - 60 + 12 * z[1] - 3 * (z[1] * z[1] - 1) +
                                    5 * z[0] * z[1];
            }};
}

KnowledgeBlock cut(const MadeDays& days, std::size_t first, std::size_t count,
                   std::vector<std::vector<std::span<const double>>>& keep) {
    std::vector<std::span<const double>> scores, responses;
    for (const auto& column : days.score)
        scores.push_back(std::span<const double>(column).subspan(first, count));
    for (const auto& column : days.response)
        responses.push_back(std::span<const double>(column).subspan(first, count));
    keep.push_back(scores);
    keep.push_back(responses);
    const auto weight = std::span<const double>(days.weight).subspan(first, count);
    return {keep[keep.size() - 2], keep[keep.size() - 1], weight};
}

}  // namespace

TEST_CASE("without luck the regression finds the polynomial itself") {
    const KnowledgeFeatures features{3, {{0, 1}}};
    const KnowledgeModel model = fit_days(make_days(polynomial(0), 2000, 1), features);
    const auto slope = [&](std::size_t term) {
        const auto row = static_cast<Eigen::Index>(term);
        return model.coefficient(row, 1) - model.coefficient(row, 0);
    };
    CHECK(slope(0) == Approx(-60).epsilon(1e-6));
    CHECK(slope(features.linear(0)) == Approx(0).margin(1e-4));
    CHECK(slope(features.linear(1)) == Approx(12).epsilon(1e-6));
    CHECK(slope(features.linear(2)) == Approx(0).margin(1e-4));
    CHECK(slope(features.square(1)) == Approx(-3).epsilon(1e-6));
    CHECK(slope(features.product(0)) == Approx(5).epsilon(1e-6));
}

TEST_CASE("weights act as copies of days") {
    MadeDays once = make_days(polynomial(20), 800, 2), twice = once;
    for (std::size_t day = 0; day < 400; ++day) once.weight[day] = 2;
    for (auto* columns : {&twice.score, &twice.response})
        for (auto& column : *columns)
            column.insert(column.end(), column.begin(), column.begin() + 400);
    twice.weight.assign(1200, 1);
    twice.score_views.assign(twice.score.begin(), twice.score.end());
    twice.response_views.assign(twice.response.begin(), twice.response.end());
    const KnowledgeModel a = fit_days(once, {3, {}}), b = fit_days(twice, {3, {}});
    CHECK((a.coefficient - b.coefficient).norm() < 1e-6);
    CHECK((a.response_mean - b.response_mean).norm() < 1e-8);
}

TEST_CASE("a stream in blocks is the stream at once, merged or not") {
    const MadeDays days = make_days(polynomial(20), 1000, 3);
    const KnowledgeModel whole = fit_days(days, {3, {{0, 1}}});
    std::vector<std::vector<std::span<const double>>> keep;
    keep.reserve(8);
    KnowledgeFit streamed({3, {{0, 1}}}, 2), tail({3, {{0, 1}}}, 2);
    streamed.add_block(cut(days, 0, 384, keep));
    tail.add_block(cut(days, 384, 616, keep));
    streamed.merge(tail);
    const KnowledgeModel parts = streamed.solve();
    CHECK((whole.coefficient - parts.coefficient).norm() < 1e-8);
    for (std::size_t g = 0; g < kJackknifeGroups; ++g)
        CHECK((whole.replicate[g] - parts.replicate[g]).norm() < 1e-8);
}

TEST_CASE("the same stream gives the same bits") {
    const MadeDays days = make_days(polynomial(20), 1000, 4);
    const KnowledgeModel a = fit_days(days, {3, {}}), b = fit_days(days, {3, {}});
    CHECK(a.coefficient == b.coefficient);
}

TEST_CASE("a fact that never varies explains nothing and breaks nothing") {
    MadeDays days = make_days(polynomial(20), 1000, 5);
    days.score[2].assign(1000, 0.0);
    days.score_views.assign(days.score.begin(), days.score.end());
    const KnowledgeModel model = fit_days(days, {3, {}});
    CHECK(model.coefficient.allFinite());
    CHECK(std::fabs(model.coefficient(3, 1)) < 1e-9);
}

TEST_CASE("errors by leaving groups out are those of least squares") {
    // The slope on a standard normal score from n days of luck sd s has standard error
    // s sqrt(2/n) for a difference of two setups (Gauss; any text on regression). The
    // jackknife with 16 groups knows it to 1/sqrt(30): bound 4.9 of these.
    const std::size_t count = 16000;
    const MadeDays days = make_days(polynomial(50), count, 6);
    const KnowledgeModel model = fit_days(days, {3, {{0, 1}}});
    std::vector<double> replicate;
    for (const auto& fit : model.replicate) replicate.push_back(fit(2, 1) - fit(2, 0));
    const double exact = 50 * std::sqrt(2.0 / count);
    CHECK(std::fabs(jackknife_error(replicate) / exact - 1) < 4.9 / std::sqrt(30.0));
}

TEST_CASE("days that take turns between strata do not blur the errors") {
    // Of every 16 days the first 8 are never flat and the rest always, weight .1: groups
    // of day number mod 16 would each hold one kind only. The mean of a difference that
    // jumps by 500 s between the kinds is then known to within luck (sd 5 s), not to 500
    // s.
    MadeLaw law = polynomial(5);
    MadeDays days = make_days(law, 16384, 7);
    for (std::size_t day = 0; day < 16384; ++day) {
        const bool flat = day % 16 >= 8;
        days.weight[day] = flat ? .1 : 1.9;
        if (flat) days.response[1][day] += 500;
    }
    const KnowledgeModel model = fit_days(days, {3, {{0, 1}}});
    std::vector<double> mean;
    for (const auto& m : model.mean_replicate) mean.push_back(m[1] - m[0]);
    // Spread within kinds: 5 sqrt 2 and the polynomial's 13.7, on 9071 effective days.
    const double exact = std::sqrt(2 * 25 + 144 + 18 + 25) / std::sqrt(9071.0);
    CHECK(std::fabs(jackknife_error(mean) / exact - 1) < 4.9 / std::sqrt(30.0));
}

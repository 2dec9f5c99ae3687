// Days made from a known law: two or three setups whose figures depend on unknown facts
// through known polynomials, plus luck.
#pragma once

#include <cstddef>
#include <functional>
#include <random>
#include <span>
#include <vector>

#include "findings/knowledge/fit.h"

namespace flattail::findings {

struct MadeDays {
    std::vector<std::vector<double>> score, response;
    std::vector<double> weight;
    std::vector<std::span<const double>> score_views, response_views;

    KnowledgeBlock block() const { return {score_views, response_views, weight}; }
    KnowledgeDraws draws() const { return {score_views, weight}; }
};

/// expected(z, setup) plus luck_sd times a normal deviate of each setup's own.
struct MadeLaw {
    std::size_t inputs = 1;
    std::size_t setups = 2;
    double luck_sd = 0;
    std::function<double(const std::vector<double>& z, std::size_t setup)> expected;
};

inline MadeDays make_days(const MadeLaw& law, std::size_t count, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    MadeDays days;
    days.score.resize(law.inputs);
    days.response.resize(law.setups);
    for (std::size_t day = 0; day < count; ++day) {
        std::vector<double> z(law.inputs);
        for (double& value : z) value = normal(random);
        for (std::size_t i = 0; i < law.inputs; ++i) days.score[i].push_back(z[i]);
        for (std::size_t k = 0; k < law.setups; ++k)
            days.response[k].push_back(law.expected(z, k) + law.luck_sd * normal(random));
    }
    days.weight.assign(count, 1);
    days.score_views.assign(days.score.begin(), days.score.end());
    days.response_views.assign(days.response.begin(), days.response.end());
    return days;
}

inline KnowledgeModel fit_days(const MadeDays& days, const KnowledgeFeatures& features) {
    KnowledgeFit fit(features, days.response.size());
    fit.add_block(days.block());
    return fit.solve();
}

}  // namespace flattail::findings

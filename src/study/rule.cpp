#include "study/rule.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace flattail::study {

namespace {

using findings::WeightedSample;

// Chances that differ by less are not worth changing a wheel for: 1 day in 100 for a
// goal, 1 in 500 for a finish, which costs a season's work when lost (assumptions).
constexpr double kGoalMatters = 0.01;
constexpr double kFinishMatters = 0.002;
// Half-width, in shares of days, of the slope of the distribution at a percentile: wide
// enough to be smooth, narrow enough to be local.
constexpr double kSlopeHalfWidth = 0.02;

// Density at a quantile from the times around it.
double find_density(const WeightedSample& sample, double p) {
    const double low = std::max(p - kSlopeHalfWidth, 1e-4);
    const double high = std::min(p + kSlopeHalfWidth, 1.0 - 1e-4);
    const double width = sample.quantile(high) - sample.quantile(low);
    return (high - low) / std::max(width, 1e-9);
}

std::vector<double> respond_percentile(const WeightedSample& sample, double p) {
    const double q = sample.quantile(p), density = find_density(sample, p);
    std::vector<double> response(sample.size());
    for (std::size_t d = 0; d < response.size(); ++d) {
        const double beyond = sample.values()[d] > q ? 1.0 : 0.0;
        response[d] = q + (beyond - (1.0 - p)) / density;
    }
    return response;
}

std::vector<double> respond_worst(const WeightedSample& sample, double level) {
    const double q = sample.quantile(level);
    std::vector<double> response(sample.size());
    for (std::size_t d = 0; d < response.size(); ++d) {
        response[d] = q + std::max(sample.values()[d] - q, 0.0) / (1.0 - level);
    }
    return response;
}

std::vector<double> respond_within(const std::vector<double>& finish_s, double limit_s) {
    std::vector<double> response(finish_s.size());
    std::transform(finish_s.begin(), finish_s.end(), response.begin(), [=](double t) {
        return t <= limit_s && std::isfinite(t) ? 1.0 : 0.0;
    });
    return response;
}

std::vector<double> respond(const findings::StudySample& sample,
                            const scenario::Model& model, scenario::RuleKind rule,
                            std::size_t s) {
    switch (rule) {
        case scenario::RuleKind::kPercentile:
            return respond_percentile(*sample.judged[s], model.decision.percentile);
        case scenario::RuleKind::kWorstDays:
            return respond_worst(*sample.judged[s], model.decision.percentile);
        case scenario::RuleKind::kGoal:
            return respond_within(sample.finish_s[s], model.race.goals.front().time_s);
        case scenario::RuleKind::kFinish:
            return respond_within(sample.finish_s[s], INFINITY);
        case scenario::RuleKind::kMean:
            break;
    }
    return sample.judged_s[s];
}

std::string name_rule(const scenario::Model& model, scenario::RuleKind rule) {
    const double p = model.decision.percentile;
    switch (rule) {
        case scenario::RuleKind::kPercentile:
            return p == 0.5 ? "typical time"
                            : fmt::format("the time kept on {:g} days in 100", 100.0 * p);
        case scenario::RuleKind::kWorstDays:
            return fmt::format("average of the worst {:g} days in 100",
                               100.0 * (1.0 - p));
        case scenario::RuleKind::kGoal:
            return "chance of the goal " + model.race.goals.front().text;
        case scenario::RuleKind::kFinish:
            return kFinishRule;
        case scenario::RuleKind::kMean:
            break;
    }
    return "average time";
}

}  // namespace

RuleResponse make_response(const findings::StudySample& sample,
                           const scenario::Model& model, scenario::RuleKind rule) {
    RuleResponse made;
    made.words = name_rule(model, rule);
    const bool chance =
        rule == scenario::RuleKind::kGoal || rule == scenario::RuleKind::kFinish;
    made.better = chance ? findings::Better::kLarger : findings::Better::kSmaller;
    made.matters = model.decision.matters_s;
    if (rule == scenario::RuleKind::kGoal) made.matters = kGoalMatters;
    if (rule == scenario::RuleKind::kFinish) made.matters = kFinishMatters;
    for (std::size_t s = 0; s < sample.setups(); ++s) {
        made.response.push_back(respond(sample, model, rule, s));
    }
    return made;
}

}  // namespace flattail::study

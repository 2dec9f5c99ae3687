// What is not known, learnt from the study's own days: how far it could move the answer.
#pragma once

#include <utility>
#include <vector>

#include "findings/knowledge/model.h"
#include "findings/summary/study_sample.h"
#include "flattail/findings.h"
#include "sampling/day_plan.h"
#include "study/blocks.h"

namespace flattail::study {

/// Inputs kept for the regression; the rest hardly move anything. METHOD 10.16
constexpr std::size_t kMostFacts = 12;

/// The regression of every setup's judged time on the unknown facts that matter.
struct Learnt {
    std::vector<InputId> facts;
    // Those that move one setup's difference to the one compared with: [setup].
    std::vector<std::vector<InputId>> pair_facts;
    findings::KnowledgeModel model;
    std::vector<std::vector<double>> score;  // [fact][draw], for reading the model
    std::vector<double> weight;              // [draw]
};

Learnt learn_from_days(const findings::StudySample& sample, const sampling::DayPlan& plan,
                       int against, const BlockExecutor& run);

/// The regression of any figure per setup and day, with products of some facts.
/// Shapes: responses[setup][day]
findings::KnowledgeModel fit_responses(
    const findings::StudySample& sample, const sampling::DayPlan& plan,
    const std::vector<InputId>& facts,
    const std::vector<std::pair<std::size_t, std::size_t>>& products,
    const std::vector<std::vector<double>>& responses);

/// The model of some of its setups, in this order.
findings::KnowledgeModel select_setups(const findings::KnowledgeModel& whole,
                                       const std::vector<int>& kept);

/// Setups that break no rule.
std::vector<int> list_allowed(const scenario::Model& model);

/// Moves the means of the judged times so that their differences are the sharpened ones.
void centre_on(const Findings& found, Learnt& learnt);

/// "Could be" and the spreads of one pair.
void add_knowledge(const Learnt& learnt, int against, PairFindings& pair);

}  // namespace flattail::study

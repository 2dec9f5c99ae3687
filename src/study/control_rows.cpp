#include "study/control_rows.h"

#include <algorithm>

#include "findings/sample/controls.h"

namespace flattail::study {

namespace {

constexpr std::size_t kPerSetup = 2, kPerFact = 2;

std::vector<InputId>::const_iterator find_fact(const std::vector<InputId>& facts,
                                               InputId wanted) {
    return std::find_if(facts.begin(), facts.end(),
                        [=](InputId fact) { return fact.index == wanted.index; });
}

}  // namespace

ControlRows::ControlRows(const outcome::Outcomes& outcomes, const sampling::DayPlan& plan,
                         const std::vector<std::vector<InputId>>& facts)
    : outcomes_(&outcomes), plan_(&plan) {
    for (const auto& some : facts) {
        for (const InputId fact : some) {
            if (find_fact(facts_, fact) == facts_.end()) facts_.push_back(fact);
        }
    }
}

Eigen::Index ControlRows::count() const {
    return static_cast<Eigen::Index>(kPerSetup * outcomes_->setups() +
                                     kPerFact * facts_.size());
}

std::vector<Eigen::Index> ControlRows::list_columns(const std::vector<int>& setups,
                                                    const std::vector<InputId>& facts,
                                                    std::size_t days) const {
    std::vector<Eigen::Index> columns;
    const auto add = [&](std::size_t first) {
        if (columns.size() + 2 > days / findings::kDaysPerControl) return;
        columns.push_back(static_cast<Eigen::Index>(first));
        columns.push_back(static_cast<Eigen::Index>(first + 1));
    };
    for (const int s : setups) add(kPerSetup * static_cast<std::size_t>(s));
    for (const InputId fact : facts) {
        const auto place = find_fact(facts_, fact) - facts_.begin();
        add(kPerSetup * outcomes_->setups() + kPerFact * static_cast<std::size_t>(place));
    }
    return columns;
}

void ControlRows::fill(std::size_t first, Eigen::Ref<Eigen::MatrixXd> rows) const {
    const Eigen::Index lanes = rows.rows();
    const Eigen::Map<const Eigen::VectorXd> weight(outcomes_->weights().data() + first,
                                                   lanes);
    Eigen::Index column = 0;
    for (std::size_t s = 0; s < outcomes_->setups(); ++s) {
        const Eigen::Map<const Eigen::VectorXf> surprise(
            outcomes_->surprises(s).data() + first, lanes);
        const Eigen::Map<const Eigen::VectorXf> nails(outcomes_->nails(s).data() + first,
                                                      lanes);
        rows.col(column++) = weight.array() * surprise.array().cast<double>();
        rows.col(column++) = nails.cast<double>();
    }
    double score[sampling::kLanes];
    for (const InputId fact : facts_) {
        plan_->fill_knowledge_scores(fact, first, score);
        const Eigen::Map<const Eigen::ArrayXd> z(score, lanes);
        rows.col(column++) = weight.array() * z;
        rows.col(column++) = weight.array() * (z.square() - 1.0);
    }
}

}  // namespace flattail::study

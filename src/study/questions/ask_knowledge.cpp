#include "study/questions/ask_knowledge.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "chance/distribution.h"
#include "findings/knowledge/effects.h"
#include "findings/knowledge/information.h"
#include "findings/sample/means.h"
#include "ride/road.h"
#include "study/questions/ask_break_even.h"
#include "study/rule.h"

namespace flattail::study {

namespace {

using Views = std::vector<std::span<const double>>;
using findings::Contrast;
using findings::KnowledgeModel;

// Facts whose products enter the second fit: the five that move most, ten products.
constexpr std::size_t kFactsWithProducts = 5;
constexpr double kLowShare = 0.10, kHighShare = 0.90;

// What "600 km more on it" means, and how well one careful test tells rolling and drag
// area (assumptions: 2 W a pair at 45 km/h, 2 %).
constexpr double kRiddenMoreM = 600e3;
constexpr double kTestErrorCrr = 0.0002;
constexpr double kTestErrorDrag = 0.02;

Views view(const Learnt& learnt) {
    Views views;
    for (const auto& row : learnt.score) views.emplace_back(row);
    return views;
}

Figure to_figure(const findings::Estimate& e) { return {e.value, e.standard_error}; }

bool has_end(const std::string& text, const std::string& end) {
    return text.size() >= end.size() &&
           text.compare(text.size() - end.size(), end.size(), end) == 0;
}

bool has_start(const std::string& text, const std::string& start) {
    return text.compare(0, start.size(), start) == 0;
}

// Where a fact belongs, by its name.
std::string name_group(const std::string& name) {
    if (has_start(name, "flats.") || has_end(name, ".cuts") ||
        has_end(name, ".fitting") || has_end(name, ".holds") || has_end(name, ".worn")) {
        return "flats";
    }
    if (has_start(name, "repair.")) return "repairs";
    if (has_start(name, "road.crr") || has_end(name, ".rolling") ||
        name == "road.wet_rolling") {
        return "rolling";
    }
    if (has_start(name, "weather.") || name == "road.shelter") return "weather";
    if (has_start(name, "rider.")) return "rider";
    return "other";
}

double to_user(const Input& input, double value) {
    return (value - input.unit_zero) / input.unit_si;
}

FactFindings describe_fact(const Input& input) {
    FactFindings fact;
    fact.name = input.name;
    fact.label = input.label;
    fact.unit = input.unit;
    fact.low = to_user(input, chance::quantile(input.knowledge, kLowShare));
    fact.high = to_user(input, chance::quantile(input.knowledge, kHighShare));
    return fact;
}

std::vector<FactFindings> weigh_facts(const WholeStudy& study,
                                      const KnowledgeModel& fitted,
                                      const Contrast& contrast) {
    const scenario::Model& model = *study.prepared.model;
    std::vector<FactFindings> facts;
    for (const auto& effect : findings::input_effects(fitted, contrast)) {
        FactFindings fact = describe_fact(model.input(study.learnt.facts[effect.input]));
        fact.at_low_s = to_figure(effect.at_low);
        fact.at_high_s = to_figure(effect.at_high);
        const std::size_t alone[] = {effect.input};
        const auto share = findings::variance_share(fitted, contrast, alone);
        fact.first = to_figure(share.first);
        fact.total = to_figure(share.total);
        facts.push_back(std::move(fact));
    }
    std::stable_sort(facts.begin(), facts.end(),
                     [](const FactFindings& a, const FactFindings& b) {
                         return std::abs(a.at_high_s.value - a.at_low_s.value) >
                                std::abs(b.at_high_s.value - b.at_low_s.value);
                     });
    return facts;
}

std::vector<GroupFindings> weigh_groups(const WholeStudy& study,
                                        const KnowledgeModel& fitted,
                                        const Contrast& contrast) {
    std::vector<GroupFindings> groups;
    for (const char* name :
         {"rolling", "flats", "repairs", "rider", "weather", "other"}) {
        std::vector<std::size_t> members;
        for (std::size_t i = 0; i < study.learnt.facts.size(); ++i) {
            const Input& input = study.prepared.model->input(study.learnt.facts[i]);
            if (name_group(input.name) == name) members.push_back(i);
        }
        if (members.empty()) continue;
        const auto share = findings::variance_share(fitted, contrast, members);
        groups.push_back({name, to_figure(share.first), to_figure(share.total)});
    }
    std::stable_sort(groups.begin(), groups.end(),
                     [](const GroupFindings& a, const GroupFindings& b) {
                         return a.total.value > b.total.value;
                     });
    return groups;
}

// The share of what could be under which the other setup is the better one.
Figure count_other_better(const WholeStudy& study, const PairFindings& pair) {
    const Learnt& learnt = study.learnt;
    const Views scores = view(learnt);
    const auto against = static_cast<std::size_t>(study.findings.against);
    const Eigen::MatrixXd terms =
        findings::terms_of(learnt.model.features, {scores, learnt.weight});
    const auto share = [&](std::size_t left_out) {
        findings::ModelReading reading = findings::read_everything(learnt.model);
        reading.left_out = left_out;
        const Eigen::MatrixXd expected =
            findings::expected_against(learnt.model, against, terms, reading);
        std::vector<double> other;
        for (Eigen::Index d = 0; d < expected.rows(); ++d) {
            const bool is_slower = expected(d, pair.setup) > 0;
            other.push_back(is_slower == (pair.mean_s.value <= 0) ? 1.0 : 0.0);
        }
        return findings::estimate_mean(other, {learnt.weight, {}});
    };
    std::vector<double> replicate;
    for (std::size_t g = 0; g < learnt.model.replicate.size(); ++g) {
        replicate.push_back(share(g).value);
    }
    const findings::Estimate all = share(findings::kAllDays);
    return {all.value,
            std::hypot(all.standard_error, findings::jackknife_error(replicate))};
}

double sum_first(const std::vector<FactFindings>& facts) {
    double sum = 0.0;
    for (const FactFindings& fact : facts) sum += fact.first.value;
    return sum;
}

// True for a fact that is drawn together with others: learning it tells of them too,
// which the formula for one fact does not know.
bool is_correlated(const scenario::Model& model, InputId id) {
    for (const auto& together : model.correlations) {
        if (together.layer != Layer::kKnowledge) continue;
        for (const InputId member : together.inputs) {
            if (member.index == id.index) return true;
        }
    }
    return false;
}

// Share of a fact's variance learnt by 600 km more or by one more test; 0 where neither
// tells about it.
struct Lesson {
    Learning learning = Learning::kOneFact;
    double share = 0.0;
};

Lesson find_lesson(const scenario::Model& model, const Input& input) {
    const double mean = chance::mean(input.knowledge), sd = chance::sd(input.knowledge);
    if (!(sd > 0.0) || !std::isfinite(mean)) return {};
    const bool is_ratio = has_end(input.name, ".cuts");
    if (is_ratio || input.name == "flats.training") {
        // A gamma law of this mean and spread is worth (mean / sd)^2 flats.
        const double rate = ride::find_median(model, model.flats.training_per_m) *
                            (is_ratio ? mean : 1.0);
        const double flats = (mean / sd) * (mean / sd);
        return {Learning::kRiding,
                findings::share_learnt_by_riding(flats / rate, kRiddenMoreM)};
    }
    if (has_end(input.name, ".rolling") || has_start(input.name, "road.crr")) {
        return {Learning::kTest, findings::share_learnt_by_measuring(sd, kTestErrorCrr)};
    }
    if (input.name == "rider.drag_area") {
        return {Learning::kTest,
                findings::share_learnt_by_measuring(sd, kTestErrorDrag * mean)};
    }
    return {};
}

struct Library {
    const KnowledgeModel& model;
    findings::KnowledgeDraws draws;
    findings::Better better;
};

InformationRow appraise(const Library& library, std::size_t fact, double share) {
    std::vector<double> known(library.model.features.inputs, 0.0);
    known[fact] = share;
    InformationRow row;
    row.share = share;
    row.worth = to_figure(
        findings::value_of_learning(library.model, library.draws, known, library.better));
    return row;
}

InformationRow appraise_everything(const Library& library) {
    const std::vector<double> known(library.model.features.inputs, 1.0);
    InformationRow row;
    row.label = "everything that is not known";
    row.worth = to_figure(
        findings::value_of_learning(library.model, library.draws, known, library.better));
    return row;
}

void append_lessons(const WholeStudy& study, const Library& library,
                    std::vector<InformationRow>& rows) {
    const scenario::Model& model = *study.prepared.model;
    std::vector<InformationRow> facts;
    for (std::size_t i = 0; i < study.learnt.facts.size(); ++i) {
        if (is_correlated(model, study.learnt.facts[i])) continue;
        const Input& input = model.input(study.learnt.facts[i]);
        const auto add = [&](Learning learning, double share) {
            InformationRow row = appraise(library, i, share);
            row.learning = learning;
            row.name = input.name;
            row.label = input.label;
            facts.push_back(std::move(row));
        };
        add(Learning::kOneFact, 1.0);
        const Lesson lesson = find_lesson(model, input);
        if (lesson.share > 0.0) add(lesson.learning, lesson.share);
    }
    std::stable_sort(facts.begin(), facts.end(),
                     [](const InformationRow& a, const InformationRow& b) {
                         return a.worth.value > b.worth.value;
                     });
    rows.insert(rows.end(), facts.begin(), facts.end());
}

std::string find_reason_not_to_value(const WholeStudy& study,
                                     const std::vector<int>& allowed) {
    const scenario::RuleKind rule = study.prepared.model->decision.rule;
    if (allowed.size() < 2) return "there is only one setup to choose";
    if (rule == scenario::RuleKind::kPercentile) {
        return "a share of days is no average, so gains on single days do not add up to "
               "it; use the rule \"mean time\" or a chance";
    }
    if (rule == scenario::RuleKind::kWorstDays) {
        return "the worst days are other days once more is known, so gains on single "
               "days do not add up; use the rule \"mean time\" or a chance";
    }
    if (study.learnt.facts.empty()) {
        return "nothing that is not known moves a difference noticeably";
    }
    return "";
}

}  // namespace

std::vector<MovesFindings> ask_moves(const WholeStudy& study) {
    const Learnt& learnt = study.learnt;
    const auto against = static_cast<std::size_t>(study.findings.against);
    const auto products =
        findings::choose_products(learnt.model, against, kFactsWithProducts);
    const KnowledgeModel fitted =
        fit_responses(*study.sample, *study.prepared.days, learnt.facts, products,
                      study.sample->judged_s);
    std::vector<MovesFindings> all;
    for (const PairFindings& pair : study.findings.pairs) {
        const Contrast contrast{static_cast<std::size_t>(pair.setup), against};
        MovesFindings moves;
        moves.setup = pair.setup;
        moves.not_known_s = {pair.knowledge_sd_s, pair.knowledge_sd_se_s};
        moves.luck_s = {pair.luck_sd_s, pair.luck_sd_se_s};
        moves.other_better = count_other_better(study, pair);
        moves.facts = weigh_facts(study, fitted, contrast);
        moves.groups = weigh_groups(study, fitted, contrast);
        if (!moves.facts.empty()) {
            moves.interaction = std::max(1.0 - sum_first(moves.facts), 0.0);
        }
        all.push_back(std::move(moves));
    }
    return all;
}

InformationFindings ask_information(const WholeStudy& study) {
    const scenario::Model& model = *study.prepared.model;
    const std::vector<int> allowed = list_allowed(model);
    InformationFindings found;
    found.why_not = find_reason_not_to_value(study, allowed);
    if (!found.why_not.empty()) return found;
    found.in_chance = decides_by_chance(study);
    const Views scores = view(study.learnt);
    KnowledgeModel fitted = study.learnt.model;
    if (found.in_chance) {
        const RuleResponse rule =
            make_response(*study.sample, model, model.decision.rule);
        fitted = fit_responses(*study.sample, *study.prepared.days, study.learnt.facts,
                               {}, rule.response);
    }
    const KnowledgeModel chosen = select_setups(fitted, allowed);
    const Library library{
        chosen,
        {scores, study.learnt.weight},
        found.in_chance ? findings::Better::kLarger : findings::Better::kSmaller};
    found.rows.push_back(appraise_everything(library));
    append_lessons(study, library, found.rows);
    return found;
}

}  // namespace flattail::study

// The study, and then every question of `why`.
#include <span>

#include "flattail/why.h"
#include "study/questions/ask_break_even.h"
#include "study/questions/ask_knowledge.h"
#include "study/questions/ask_trade_off.h"
#include "study/questions/ask_variants.h"

namespace flattail {

namespace {

constexpr BreakEvenQuestion kQuestions[] = {
    BreakEvenQuestion::kFlatRate, BreakEvenQuestion::kRepairTime,
    BreakEvenQuestion::kRollingGain, BreakEvenQuestion::kPower,
    BreakEvenQuestion::kPressure};

// Share of the work that the study itself is; only for the progress line.
constexpr double kStudyShare = 0.2;
constexpr double kBriefStudyShare = 0.4;
constexpr BreakEvenQuestion kBriefQuestions[] = {BreakEvenQuestion::kFlatRate};

std::function<void(double)> take_part(const StudyOptions& options, double from,
                                      double share) {
    if (!options.progress) return {};
    return
        [&options, from, share](double done) { options.progress(from + share * done); };
}

bool is_stopped(const StudyOptions& options) {
    return options.should_stop && options.should_stop();
}

void ask_break_evens(const study::WholeStudy& study,
                     std::span<const BreakEvenQuestion> questions, double study_share,
                     const study::Asking& each, WhyFindings& why) {
    const StudyOptions& options = *each.options;
    double from = study_share;
    const double share = (1.0 - study_share) / static_cast<double>(questions.size());
    for (const BreakEvenQuestion question : questions) {
        const study::Asking asking{&options, each.run, take_part(options, from, share)};
        for (auto& found : study::ask_break_even(study, question, asking)) {
            why.break_even.push_back(std::move(found));
        }
        if (is_stopped(options)) return;
        from += share;
    }
}

// A study that was stopped, or is too short to be ridden again, is asked nothing.
bool can_ask(const study::WholeStudy& study) {
    return !study.findings.facts.stopped_early &&
           study.sample->days() >= 2 * sampling::kLanes;
}

}  // namespace

WhyFindings explain_briefly(const Scenario& scenario, const StudyOptions& options) {
    const study::BlockExecutor run = study::make_parallel_executor(options.threads);
    StudyOptions first = options;
    first.progress = take_part(options, 0.0, kBriefStudyShare);
    study::WholeStudy study = study::run_whole_study(scenario, first, run);
    WhyFindings why;
    why.in_chance = study::decides_by_chance(study);
    if (can_ask(study)) {
        ask_break_evens(study, kBriefQuestions, kBriefStudyShare, {&options, &run, {}},
                        why);
    }
    why.stopped_early = study.findings.facts.stopped_early || is_stopped(options);
    why.race = std::move(study.findings);
    return why;
}

WhyFindings explain(const Scenario& scenario, const StudyOptions& options) {
    const study::BlockExecutor run = study::make_parallel_executor(options.threads);
    StudyOptions first = options;
    first.progress = take_part(options, 0.0, kStudyShare);
    study::WholeStudy study = study::run_whole_study(scenario, first, run);
    WhyFindings why;
    why.in_chance = study::decides_by_chance(study);
    why.moves = study::ask_moves(study);
    why.information = study::ask_information(study);
    why.trade_off = study::ask_trade_off(study);
    why.stopped_early = study.findings.facts.stopped_early;
    if (can_ask(study)) {
        ask_break_evens(study, kQuestions, kStudyShare, {&options, &run, {}}, why);
        why.stopped_early = is_stopped(options);
        if (!why.stopped_early) {
            const int advised = study.findings.verdict.choice;
            why.fitting = study::ask_fitting(study, advised, {&options, &run, {}});
            why.variants = study::ask_variants(study, advised, {&options, &run, {}});
        }
    }
    why.race = std::move(study.findings);
    return why;
}

}  // namespace flattail

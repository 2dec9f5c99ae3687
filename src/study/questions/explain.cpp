// The study, and then every question of `why`.
#include "flattail/why.h"
#include "study/questions/ask_break_even.h"
#include "study/questions/ask_knowledge.h"
#include "study/questions/ask_trade_off.h"

namespace flattail {

namespace {

constexpr BreakEvenQuestion kQuestions[] = {
    BreakEvenQuestion::kFlatRate, BreakEvenQuestion::kRepairTime,
    BreakEvenQuestion::kRollingGain, BreakEvenQuestion::kPower,
    BreakEvenQuestion::kPressure};

// Share of the work that the study itself is; only for the progress line.
constexpr double kStudyShare = 0.2;

std::function<void(double)> take_part(const StudyOptions& options, double from,
                                      double share) {
    if (!options.progress) return {};
    return
        [&options, from, share](double done) { options.progress(from + share * done); };
}

bool is_stopped(const StudyOptions& options) {
    return options.should_stop && options.should_stop();
}

void ask_break_evens(const study::WholeStudy& study, const StudyOptions& options,
                     const study::BlockExecutor& run, WhyFindings& why) {
    double from = kStudyShare;
    const double share = (1.0 - kStudyShare) / std::size(kQuestions);
    for (const BreakEvenQuestion question : kQuestions) {
        const study::Asking asking{&options, &run, take_part(options, from, share)};
        for (auto& found : study::ask_break_even(study, question, asking)) {
            why.break_even.push_back(std::move(found));
        }
        if (is_stopped(options)) return;
        from += share;
    }
}

}  // namespace

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
    if (!why.stopped_early && study.sample->days() >= 2 * sampling::kLanes) {
        ask_break_evens(study, options, run, why);
        why.stopped_early = is_stopped(options);
        if (!why.stopped_early) {
            why.fitting = study::ask_fitting(study, study.findings.verdict.choice,
                                             {&options, &run, {}});
        }
    }
    why.race = std::move(study.findings);
    return why;
}

}  // namespace flattail

// The study: days drawn and ridden block by block, then summarised.
#include "study/run_study.h"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <vector>

#include "findings/stopping.h"
#include "findings/summary/summarise.h"
#include "flattail/version.h"
#include "outcome/nominal_flats.h"
#include "ride/block_ride.h"
#include "study/accuracy.h"
#include "study/facts.h"
#include "study/listing/ceilings.h"
#include "study/listing/conditions.h"
#include "study/listing/day_table.h"
#include "study/parts.h"
#include "study/precision.h"
#include "study/sharpen.h"
#include "study/verdict.h"
#include "study/weigh_kit.h"

namespace flattail {

namespace {

using sampling::kLanes;

// Blocks between two looks at should_stop and two reports of progress.
constexpr std::size_t kBlocksPerBatch = 128;
constexpr std::int64_t kFewestRaces = 64;
constexpr std::int64_t kMostRaces = 200'000'000;

void check_options(const StudyOptions& options) {
    std::vector<Problem> problems;
    if (options.races < kFewestRaces || options.races > kMostRaces) {
        problems.push_back(
            {{},
             "races is " + std::to_string(options.races) + ", outside 64 to 200,000,000",
             "ask for 100000, or 1000000 for rare events"});
    }
    if (options.threads < 0 || options.threads > 1024) {
        problems.push_back({{},
                            "threads is " + std::to_string(options.threads),
                            "write 0 for all cores, or a number up to 1024"});
    }
    if (!(options.within_s >= 0.0)) {
        problems.push_back(
            {{}, "within is not a time above 0", "write --within 1s, or leave it"});
    }
    if (!problems.empty()) throw InvalidInput(std::move(problems));
}

struct Tallied {
    std::mutex lock;
    ride::SettleCount settled;
};

void add(const ride::SettleCount& part, Tallied& all) {
    const std::lock_guard guard(all.lock);
    all.settled.block_segments += part.block_segments;
    all.settled.settled_block_segments += part.settled_block_segments;
    all.settled.settled_lanes += part.settled_lanes;
    all.settled.not_solved += part.not_solved;
}

// Rides blocks [begin, end) with a rider and a block of days of its own.
void ride_blocks(const study::Prepared& prepared, std::size_t begin, std::size_t end,
                 outcome::Outcomes& outcomes, Tallied& tallied) {
    const scenario::Model& model = *prepared.model;
    ride::BlockRider rider(prepared.ride_plan());
    sampling::DayBlock days = prepared.days->make_block();
    std::array<ride::RideResult, kLanes> results;
    outcome::NominalFlats nominal(model, *prepared.hazard, prepared.seed,
                                  prepared.days->math());
    double nails[kLanes];
    for (std::size_t block = begin; block < end; ++block) {
        const std::size_t first = block * kLanes;
        const std::size_t lanes = std::min<std::size_t>(kLanes, outcomes.days() - first);
        prepared.days->fill(first, days);
        nominal.look_at(days);
        for (std::size_t j = 0; j < lanes; ++j) {
            outcomes.store_day(first + j, days.weight[j], days.group[j]);
        }
        for (std::size_t s = 0; s < model.setups.size(); ++s) {
            rider.ride(days, static_cast<int>(s), ride::Solver::kFast, results);
            nominal.find_surplus(static_cast<int>(s), nails);
            for (std::size_t j = 0; j < lanes; ++j) {
                outcomes.store(s, first + j, results[j]);
                outcomes.store_controls(s, first + j, results[j], nails[j]);
            }
        }
    }
    add(rider.settled(), tallied);
}

// The days at which the study next looks whether it knows enough: after whole blocks.
std::size_t find_next_look(const StudyOptions& options, std::size_t days,
                           std::size_t all) {
    if (options.within_s <= 0.0) return all;
    const findings::StoppingRule rule{options.within_s, all};
    return static_cast<std::size_t>(findings::next_look(rule, days));
}

struct Ridden {
    std::size_t days = 0;
    bool interrupted = false;  // by the user, not by precision
};

// All blocks in batches; stops between two of them when asked to, and at a look that
// finds the answer precise enough.
Ridden ride_all(const study::Prepared& prepared, const StudyOptions& options,
                const study::BlockExecutor& run, outcome::Outcomes& outcomes,
                Tallied& tallied) {
    const std::size_t blocks = (outcomes.days() + kLanes - 1) / kLanes;
    std::size_t done = 0, look = find_next_look(options, 0, outcomes.days());
    while (done < blocks) {
        if (done > 0 && options.should_stop && options.should_stop()) {
            return {done * kLanes, true};
        }
        const std::size_t look_block = (look + kLanes - 1) / kLanes;
        const std::size_t batch =
            std::min({kBlocksPerBatch, blocks - done, look_block - done});
        run(batch, [&](std::size_t begin, std::size_t end) {
            ride_blocks(prepared, done + begin, done + end, outcomes, tallied);
        });
        done += batch;
        if (options.progress) {
            options.progress(static_cast<double>(done) / static_cast<double>(blocks));
        }
        if (done < look_block || done == blocks) continue;
        if (study::is_precise_enough(prepared, outcomes, run, done * kLanes,
                                     options.within_s)) {
            return {done * kLanes, false};
        }
        look = find_next_look(options, done * kLanes, outcomes.days());
    }
    return {outcomes.days(), false};
}

void summarise(const study::BlockExecutor& run, study::WholeStudy& study) {
    const study::Prepared& prepared = study.prepared;
    const scenario::Model& model = *prepared.model;
    Findings& findings = study.findings;
    study.sample =
        findings::sort_outcomes(*study.outcomes, model, study.outcomes->days(), run);
    const findings::StudySample& sample = *study.sample;
    findings.judged_no_finish_s = sample.judged_no_finish_s;
    findings.facts.effective_races = findings::effective_size(sample.design);
    findings.setups.resize(model.setups.size());
    run(model.setups.size(), [&](std::size_t begin, std::size_t end) {
        for (std::size_t s = begin; s < end; ++s) {
            findings.setups[s] = findings::summarise_setup(sample, model, s);
        }
    });
    findings.histogram = findings::summarise_histogram(sample, model);
    findings.conditions = study::split_by_rain(sample, *prepared.days, model, run);
    study::Learnt& learnt = study.learnt;
    learnt = study::learn_from_days(sample, *prepared.days, model.decision.against, run);
    const auto against = static_cast<std::size_t>(model.decision.against);
    findings.pairs.resize(model.setups.size() - 1);
    run(findings.pairs.size(), [&](std::size_t begin, std::size_t end) {
        for (std::size_t p = begin; p < end; ++p) {
            const std::size_t s = p < against ? p : p + 1;
            findings.pairs[p] = findings::summarise_pair(sample, model, s);
        }
    });
    study::sharpen_figures(sample, prepared, learnt.pair_facts, run, findings);
    study::centre_on(findings, learnt);
    for (PairFindings& pair : findings.pairs) {
        study::add_knowledge(learnt, model.decision.against, pair);
        study::add_parts(prepared, sample, run, pair);
    }
    study::apply_ceilings(model.decision, findings);
    findings.verdict = study::reach_verdict(
        learnt, {sample, *prepared.days, model, study::list_allowed(findings)});
    study::weigh_kits(prepared, sample, run, findings);
}

}  // namespace

study::WholeStudy study::run_whole_study(const Scenario& scenario,
                                         const StudyOptions& options,
                                         const BlockExecutor& run) {
    check_options(options);
    WholeStudy study;
    study.prepared = prepare(scenario.model(), options);
    study.outcomes = std::make_unique<outcome::Outcomes>(
        scenario.model().setups.size(), static_cast<std::size_t>(options.races));
    outcome::Outcomes& outcomes = *study.outcomes;
    Tallied tallied;
    const Ridden ridden = ride_all(study.prepared, options, run, outcomes, tallied);
    outcomes.keep_first(ridden.days);
    if (tallied.settled.not_solved > 0) {
        throw OurMistake(
            "a ride was not solved; please report the scenario that did this");
    }
    study.findings.facts =
        state_facts(study.prepared, options, ridden.days, ridden.interrupted);
    state_rules(scenario.model(), study.findings);
    summarise(run, study);
    if (options.keep_days) study.findings.days = list_days(outcomes);
    study.findings.accuracy = check_accuracy(study.prepared, outcomes, tallied.settled);
    return study;
}

Findings run_study(const Scenario& scenario, const StudyOptions& options) {
    const study::BlockExecutor run = study::make_parallel_executor(options.threads);
    return study::run_whole_study(scenario, options, run).findings;
}

}  // namespace flattail

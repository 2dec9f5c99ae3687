#include "study/questions/ask_break_even.h"

#include <algorithm>
#include <cmath>

#include "findings/questions/break_even.h"
#include "findings/questions/changed_mean.h"
#include "findings/sample/means.h"
#include "study/days/ride_days.h"
#include "study/questions/model_changes.h"
#include "study/rule.h"

namespace flattail::study {

namespace {

using sampling::kLanes;

// Days ridden again at each place of a scan. The change of a difference is known better
// than the difference, so few will do; four times as many halve its error.
constexpr std::size_t kScanDays = 4096;

// What is compared, on the first days: [setup][day].
struct Figures {
    std::unique_ptr<outcome::Outcomes> outcomes;
    std::vector<std::vector<double>> response;
    std::vector<double> flats;  // per race, by setup

    findings::Design design() const { return {outcomes->weights(), outcomes->groups()}; }
};

double count_flats(const outcome::Outcomes& outcomes, std::size_t setup,
                   std::size_t days) {
    double sum = 0.0, total = 0.0;
    for (std::size_t d = 0; d < days; ++d) {
        sum += outcomes.weights()[d] * outcomes.tallies(setup)[d].flats;
        total += outcomes.weights()[d];
    }
    return sum / total;
}

scenario::RuleKind find_rule(const WholeStudy& study) {
    return decides_by_chance(study) ? study.prepared.model->decision.rule
                                    : scenario::RuleKind::kMean;
}

Figures ride_figures(const scenario::Model& model, const Asking& asking, std::size_t days,
                     scenario::RuleKind rule) {
    const Prepared prepared = prepare(model, *asking.options);
    Figures figures;
    figures.outcomes =
        std::make_unique<outcome::Outcomes>(ride_days(prepared, days, *asking.run));
    const auto sample = findings::sort_outcomes(*figures.outcomes, model, days);
    figures.response = make_response(*sample, model, rule).response;
    for (std::size_t s = 0; s < model.setups.size(); ++s) {
        figures.flats.push_back(count_flats(*figures.outcomes, s, days));
    }
    return figures;
}

std::vector<double> subtract(const Figures& figures, int setup, int against) {
    std::vector<double> difference = figures.response[static_cast<std::size_t>(setup)];
    const auto& other = figures.response[static_cast<std::size_t>(against)];
    for (std::size_t d = 0; d < difference.size(); ++d) difference[d] -= other[d];
    return difference;
}

// The whole study's difference, by the rule.
findings::Estimate find_whole(const WholeStudy& study, const PairFindings& pair,
                              scenario::RuleKind rule) {
    if (rule == scenario::RuleKind::kMean) {
        return {pair.mean_s.value, pair.mean_s.standard_error};
    }
    const scenario::Model& model = *study.prepared.model;
    const RuleResponse all = make_response(*study.sample, model, rule);
    std::vector<double> difference = all.response[static_cast<std::size_t>(pair.setup)];
    const auto& other = all.response[static_cast<std::size_t>(model.decision.against)];
    for (std::size_t d = 0; d < difference.size(); ++d) difference[d] -= other[d];
    return findings::estimate_mean(difference, study.sample->design);
}

// What the scan is told in: for rates the flats of the setup for each of the other, for
// rolling the gain; the moved value itself else.
class Scale {
  public:
    Scale(const WholeStudy& study, BreakEvenQuestion question, const PairFindings& pair)
        : question_(question) {
        const scenario::Model& model = *study.prepared.model;
        const auto& setups = study.findings.setups;
        const auto flats = [&](int s) {
            return setups[static_cast<std::size_t>(s)].flats_per_race.value;
        };
        now_ = find_value_now(model, question);
        if (question == BreakEvenQuestion::kFlatRate) {
            now_ = flats(pair.setup) / flats(model.decision.against);
        } else if (question == BreakEvenQuestion::kRollingGain) {
            now_ = find_rolling_gain_w(model, pair.setup);
        }
    }
    bool is_known() const { return std::isfinite(now_) && now_ >= 0.0; }
    double now() const { return now_; }
    // `flats_ratio`: on the days ridden again, over what it is now.
    double tell(double x, double flats_ratio) const {
        if (question_ == BreakEvenQuestion::kFlatRate) return now_ * flats_ratio;
        return question_ == BreakEvenQuestion::kRollingGain ? now_ + x : x;
    }

  private:
    BreakEvenQuestion question_;
    double now_ = 0.0;
};

// All that a scan gathers for one setup.
struct Track {
    std::vector<findings::ScanPoint> points;
};

double find_flats_ratio(const Figures& now, const Figures& moved, int setup,
                        int against) {
    const auto s = static_cast<std::size_t>(setup), a = static_cast<std::size_t>(against);
    return moved.flats[s] / now.flats[s] * (now.flats[a] / moved.flats[a]);
}

void append_point(const Figures& now, const Figures& moved, double at, int setup,
                  int against, const findings::WholeMean& whole, Track& track) {
    if (!std::isfinite(at)) return;  // no flat on these days
    const std::vector<double> before = subtract(now, setup, against);
    const std::vector<double> after = subtract(moved, setup, against);
    const findings::Estimate difference = findings::estimate_changed_mean(
        whole, {before, after, now.design(), moved.design()});
    // Flats are counted on few days: a scale that stands still for a step is nudged on.
    if (!track.points.empty()) {
        const double last = track.points.back().x;
        at = std::max(at, last + 1e-9 * std::max(std::abs(last), 1.0));
    }
    track.points.push_back({at, difference});
}

BreakEvenFindings conclude(const Track& track, const Scale& scale,
                           BreakEvenQuestion question, int setup, bool larger_is_better) {
    BreakEvenFindings found;
    found.question = question;
    found.setup = setup;
    if (track.points.size() < 2) {
        found.not_asked = "too few flats to compare";
        return found;
    }
    found.now = scale.now();
    found.range = {track.points.front().x, track.points.back().x};
    for (const findings::ScanPoint& point : track.points) {
        found.scan.push_back(
            {point.x, {point.difference.value, point.difference.standard_error}});
    }
    for (const auto& change : findings::find_break_even(track.points)) {
        found.changes.push_back({change.x,
                                 {change.interval.low, change.interval.high},
                                 change.is_open_below,
                                 change.is_open_above,
                                 change.rises == larger_is_better});
    }
    return found;
}

BreakEvenFindings refuse(BreakEvenQuestion question, int setup, std::string reason) {
    BreakEvenFindings found;
    found.question = question;
    found.setup = setup;
    found.not_asked = std::move(reason);
    return found;
}

std::vector<BreakEvenFindings> refuse_all(const WholeStudy& study,
                                          BreakEvenQuestion question,
                                          const std::string& reason) {
    std::vector<BreakEvenFindings> all;
    for (const PairFindings& pair : study.findings.pairs) {
        all.push_back(refuse(question, pair.setup, reason));
    }
    return all;
}

std::size_t count_scan_days(const WholeStudy& study) {
    return std::min(kScanDays, study.sample->days() / kLanes * kLanes);
}

}  // namespace

bool decides_by_chance(const WholeStudy& study) {
    const scenario::RuleKind rule = study.prepared.model->decision.rule;
    const bool is_chance =
        rule == scenario::RuleKind::kGoal || rule == scenario::RuleKind::kFinish;
    // A chance that does not decide leaves the verdict to the average time.
    return is_chance && study.findings.verdict.rule != "average time";
}

std::vector<BreakEvenFindings> ask_break_even(const WholeStudy& study,
                                              BreakEvenQuestion question,
                                              const Asking& asking) {
    const scenario::Model& model = *study.prepared.model;
    const std::string reason = find_reason_not_to_ask(model, question);
    if (!reason.empty()) return refuse_all(study, question, reason);
    const int against = model.decision.against;
    const auto& pairs = study.findings.pairs;
    const scenario::RuleKind rule = find_rule(study);
    const std::size_t days = count_scan_days(study);
    const Figures now = ride_figures(model, asking, days, rule);
    std::vector<Track> tracks(pairs.size());
    std::vector<Scale> scales;
    std::vector<findings::WholeMean> wholes;
    for (const PairFindings& pair : pairs) {
        scales.emplace_back(study, question, pair);
        wholes.push_back(
            {find_whole(study, pair, rule), static_cast<double>(study.sample->days())});
    }
    const std::vector<double> values = list_scan_values(model, question);
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (asking.options->should_stop && asking.options->should_stop()) return {};
        const Figures moved =
            ride_figures(change_model(model, question, values[i]), asking, days, rule);
        for (std::size_t p = 0; p < pairs.size(); ++p) {
            if (!scales[p].is_known()) continue;
            const double ratio = find_flats_ratio(now, moved, pairs[p].setup, against);
            append_point(now, moved, scales[p].tell(values[i], ratio), pairs[p].setup,
                         against, wholes[p], tracks[p]);
        }
        if (asking.progress) {
            asking.progress(static_cast<double>(i + 1) /
                            static_cast<double>(values.size()));
        }
    }
    std::vector<BreakEvenFindings> all;
    for (std::size_t p = 0; p < pairs.size(); ++p) {
        all.push_back(scales[p].is_known()
                          ? conclude(tracks[p], scales[p], question, pairs[p].setup,
                                     rule != scenario::RuleKind::kMean)
                          : refuse(question, pairs[p].setup, "no flats to compare"));
    }
    return all;
}

FittingFindings ask_fitting(const WholeStudy& study, int setup, const Asking& asking) {
    if (setup < 0) return {};
    const scenario::Model& model = *study.prepared.model;
    const auto s = static_cast<std::size_t>(setup);
    const std::size_t days = count_scan_days(study);
    const auto flats = [days, s](const Figures& figures) {
        std::vector<double> count(days);
        for (std::size_t d = 0; d < days; ++d) {
            count[d] = figures.outcomes->tallies(s)[d].flats;
        }
        return count;
    };
    const scenario::RuleKind rule = scenario::RuleKind::kMean;
    const Figures now = ride_figures(model, asking, days, rule);
    const Figures later = ride_figures(ride_tubes_in(model), asking, days, rule);
    const std::vector<double> before = flats(now), after = flats(later);
    const findings::Estimate change =
        findings::estimate_change({before, after, now.design(), later.design()});
    return {setup,
            study.findings.setups[s].flats_per_race,
            {-change.value, change.standard_error}};
}

}  // namespace flattail::study

#include "publish/brief/advice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "publish/brief/calendar.h"
#include "publish/pages/page_tables.h"
#include "publish/pages/text.h"
#include "publish/words.h"
#include "study/rule.h"

namespace flattail::publish {

namespace {

// Days before the race by which a fresh tube should be in, and what to ride on it. Common
// practice: most fitting faults show within the first rides.
constexpr int kFitDaysBefore = 3;
constexpr double kRideIn_m = 50e3;

const SetupFindings& at(const Findings& findings, int setup) {
    return findings.setups[static_cast<std::size_t>(setup)];
}

const std::string& name_of(const std::vector<std::string>& names, int setup) {
    return names[static_cast<std::size_t>(setup)];
}

const PairFindings* find_pair(const Findings& findings, int setup) {
    const auto found =
        std::find_if(findings.pairs.begin(), findings.pairs.end(),
                     [setup](const PairFindings& pair) { return pair.setup == setup; });
    return found == findings.pairs.end() ? nullptr : &*found;
}

std::string say_size(double difference_s) {
    return format_span(std::abs(std::round(difference_s)));
}

std::string say_direction(double difference_s) {
    return difference_s < 0.0 ? "faster" : "slower";
}

// "22 s to 2 min 54 s faster is possible".
std::string say_range(const Interval& range_s) {
    if (range_s.low < 0.0 && range_s.high < 0.0) {
        return fmt::format("{} to {} faster is possible", say_size(range_s.high),
                           say_size(range_s.low));
    }
    if (range_s.low >= 0.0) {
        return fmt::format("{} to {} slower is possible", say_size(range_s.low),
                           say_size(range_s.high));
    }
    return fmt::format("anything from {} faster to {} slower is possible",
                       say_size(range_s.low), say_size(range_s.high));
}

std::string say_difference(const PairFindings& pair, const std::string& against) {
    return fmt::format("About {} {} than {}, flats counted; {}.",
                       say_size(pair.mean_s.value), say_direction(pair.mean_s.value),
                       against, say_range(pair.could_be_s));
}

std::string say_goal(const Findings& findings, int setup, int other) {
    const double days = count_days(findings);
    const auto chance = [&](int index) {
        return format_out_of_100(at(findings, index).goals.front(), days);
    };
    std::string text =
        fmt::format("Goal {} met on {} race days in 100",
                    format_duration(findings.goals_s.front()), chance(setup));
    if (other >= 0) {
        text += chance(setup) == chance(other)
                    ? std::string(" with either")
                    : fmt::format(" instead of {}", chance(other));
    }
    return text + '.';
}

std::string say_finish(const Findings& findings, int setup, int other) {
    const double days = count_days(findings);
    const auto chance = [&](int index) {
        return format_out_of_100(at(findings, index).no_finish, days);
    };
    return fmt::format("No finish on {} race days in 100 instead of {}.", chance(setup),
                       chance(other));
}

// Of it and the setup told before, or of all.
std::string say_certainty(const Findings& findings) {
    const Verdict& verdict = findings.verdict;
    const int share = static_cast<int>(std::floor(100.0 * verdict.share_agreeing));
    const std::string by = verdict.rule.empty() ? "" : " by " + clean_line(verdict.rule);
    return fmt::format("Of 100 ways the unknown facts could turn out, it is {}{} in {}.",
                       verdict.choice == findings.against ? "best" : "ahead", by, share);
}

// The setup to fall back on, or -1.
int find_other(const Findings& findings, int advised) {
    if (findings.setups.size() < 2) return -1;
    int other = findings.against;
    if (advised == findings.against) {
        other = findings.verdict.choice != advised ? findings.verdict.choice
                                                   : findings.verdict.runner_up;
    }
    const bool is_usable = other >= 0 && other != advised && !at(findings, other).vetoed;
    return is_usable ? other : -1;
}

bool is_fresh(const scenario::Setup& setup) {
    return std::any_of(setup.wheels.begin(), setup.wheels.end(),
                       [](const scenario::Wheel& wheel) {
                           return wheel.ridden_m.value_or(0.0) < kRideIn_m;
                       });
}

// What must be done by when, and what to do when it was not.
void add_deadlines(const Findings& findings, const scenario::Model& model,
                   const std::vector<std::string>& names, int advised,
                   BriefContent& content) {
    const scenario::Setup& setup = model.setups[static_cast<std::size_t>(advised)];
    if (!is_fresh(setup)) return;
    const std::string day = name_day_before(model.race.date, kFitDaysBefore);
    content.deadlines.push_back(
        fmt::format("Fitted by {} and ridden 50 km: most of a fresh tube's extra flats "
                    "are fitting faults.",
                    day));
    const int against = findings.against;
    const auto& kept = model.setups[static_cast<std::size_t>(against)];
    if (advised != against && !at(findings, against).vetoed && !is_fresh(kept)) {
        content.deadlines.push_back(
            fmt::format("If that is not done, stay on {}.", name_of(names, against)));
    }
}

void add_reasons(const Findings& findings, const std::vector<std::string>& names,
                 int advised, int other, BriefContent& content) {
    const bool has_goal = !findings.goals_s.empty();
    if (advised != findings.against) {
        const PairFindings* pair = find_pair(findings, advised);
        const std::string& against = name_of(names, findings.against);
        if (findings.verdict.rule == study::kFinishRule) {
            content.reasons.push_back(say_finish(findings, advised, findings.against));
        }
        if (pair != nullptr) content.reasons.push_back(say_difference(*pair, against));
        if (has_goal)
            content.reasons.push_back(say_goal(findings, advised, findings.against));
        content.reasons.push_back(say_certainty(findings));
        return;
    }
    if (content.certainty == "TOSS-UP" && other >= 0) {
        content.reasons.push_back(
            fmt::format("{} is not far enough ahead to act on: keep what is fitted.",
                        name_of(names, other)));
    } else if (findings.setups.size() > 1) {
        content.reasons.push_back(say_certainty(findings));
    }
    if (has_goal) content.reasons.push_back(say_goal(findings, advised, -1));
}

}  // namespace

void add_advice(const Findings& findings, const scenario::Model& model,
                const std::vector<std::string>& names, BriefContent& content) {
    const int advised = find_advised(findings);
    if (advised < 0) {
        content.advice = "No setup can be advised";
        content.reasons.push_back(
            "Each of them breaks a rule that is never traded against time: see RULED "
            "OUT.");
        for (int i = 0; i < static_cast<int>(names.size()) && i < 2; ++i) {
            content.shown.push_back(i);
        }
        return;
    }
    const int other = find_other(findings, advised);
    const bool keeps = advised == findings.against && findings.setups.size() > 1;
    content.advice = (keeps ? "Keep " : "Ride ") + name_of(names, advised);
    if (findings.setups.size() > 1) {
        content.certainty = name_certainty(findings.verdict.certainty);
    }
    content.shown.push_back(advised);
    if (other >= 0) content.shown.push_back(other);
    add_reasons(findings, names, advised, other, content);
    add_deadlines(findings, model, names, advised, content);
}

}  // namespace flattail::publish

// Sentences from the figures, each with the condition under which it may be said.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "flattail/why.h"
#include "publish/why/names.h"
#include "publish/words.h"

namespace flattail {

namespace {

using namespace publish;

// Differences that are worth a sentence: as in the verdict, 1 day in 100 for a goal or
// minutes lost, 1 in 500 for a finish.
constexpr double kChanceMatters = 0.01;
constexpr double kFinishMatters = 0.002;
// A flat in more races than this is no price.
constexpr double kRareFlat = 1.0 / 1000.0;
// Worth of knowing, below which nobody should go and look (assumption).
constexpr double kWorthLooking_s = 1.0;

struct Speaker {
    const WhyFindings& why;
    int subject;
    std::string name, other;
    std::string by;  // "average time": what the break-evens compare
    bool is_choice;  // the subject is ridden; else it is the one that could take over
    bool is_short = false;  // for a rider: no computing error
};

bool is_toss_up(const WhyFindings& why) {
    return why.race.verdict.certainty == Certainty::kTossUp;
}

// "goes flat over 2.7 x as often as Butyl"; `above`: the answer turns above the value.
std::string describe_turn(const Speaker& speaker, BreakEvenQuestion question, double at,
                          bool above) {
    const std::string value = format_at(question, at);
    switch (question) {
        case BreakEvenQuestion::kFlatRate:
            return fmt::format("{} goes flat {} {} as often as {}", speaker.name,
                               above ? "over" : "under", value, speaker.other);
        case BreakEvenQuestion::kRepairTime:
            return fmt::format("changing a tube takes {} {}", above ? "over" : "under",
                               value);
        case BreakEvenQuestion::kPower:
            return fmt::format("power is {} {}", above ? "over" : "under", value);
        case BreakEvenQuestion::kPressure:
            return fmt::format("the tyres hold {} {} against what the gauge says",
                               above ? "more than" : "less than", value);
        case BreakEvenQuestion::kRollingGain:
            break;
    }
    if (at <= -0.05) {
        return fmt::format("{} rolls {} {} worse than {} (a pair at 45 km/h)",
                           speaker.name, above ? "less than" : "over",
                           format_at(question, -at), speaker.other);
    }
    if (at < 0.05) {
        return fmt::format("{} rolls {} than {}", speaker.name,
                           above ? "better" : "no better", speaker.other);
    }
    return fmt::format("{} rolls {} {} better than {} (a pair at 45 km/h)", speaker.name,
                       above ? "over" : "less than", value, speaker.other);
}

// Changes next to the value of now, one on either side. A change whose interval holds the
// value of now says only that the answer is open.
struct Turns {
    const BreakEvenRow* below = nullptr;
    const BreakEvenRow* above = nullptr;
};

Turns find_turns(const BreakEvenFindings& found) {
    Turns turns;
    for (const BreakEvenRow& row : found.changes) {
        if (row.interval.high < found.now) turns.below = &row;
        if (row.interval.low > found.now && turns.above == nullptr) turns.above = &row;
    }
    return turns;
}

std::string describe_doubt(const Speaker& speaker, const BreakEvenFindings& found,
                           const BreakEvenRow& row) {
    const std::string now = format_at(found.question, found.now);
    if (speaker.is_short) return fmt::format("(now {})", now);
    const std::string low =
        row.is_open_below ? "?" : format_at(found.question, row.interval.low);
    const std::string high =
        row.is_open_above ? "?" : format_at(found.question, row.interval.high);
    std::string doubt = low == high ? "" : fmt::format("; 19 in 20: {} to {}", low, high);
    return fmt::format("(now {}{})", now, doubt);
}

void append_turns(const Speaker& speaker, const BreakEvenFindings& found,
                  std::vector<std::string>& flips) {
    const Turns turns = find_turns(found);
    for (const BreakEvenRow* row : {turns.below, turns.above}) {
        if (row == nullptr) continue;
        const bool above = row == turns.above;
        // The side away from now must be the one where the answer is another.
        const bool subject_ahead_there = above == row->better_above;
        if (subject_ahead_there == speaker.is_choice) continue;
        flips.push_back(
            fmt::format("{} is ahead by {} if {} {}.",
                        speaker.is_choice ? speaker.other : speaker.name, speaker.by,
                        describe_turn(speaker, found.question, row->at, above),
                        describe_doubt(speaker, found, *row)));
    }
}

// Every place of the scan tells the two apart, on the same side.
bool never_turns(const BreakEvenFindings& found) {
    return found.not_asked.empty() && found.changes.empty() && !found.scan.empty() &&
           std::all_of(found.scan.begin(), found.scan.end(),
                       [](const ScanRow& row) { return is_told_apart(row.difference); });
}

void append_never(const Speaker& speaker, std::vector<std::string>& flips) {
    std::string list;
    for (const BreakEvenFindings& found : speaker.why.break_even) {
        if (found.setup != speaker.subject || !never_turns(found)) continue;
        list += fmt::format("{}{} from {} to {}", list.empty() ? "" : ", ",
                            name_question(found.question),
                            format_at(found.question, found.range.low),
                            format_at(found.question, found.range.high));
    }
    if (list.empty()) return;
    flips.push_back(fmt::format("Never within reason: {} {} {} ahead.", list,
                                list.find(',') == std::string::npos ? "leaves" : "leave",
                                speaker.is_choice ? speaker.name : speaker.other));
}

// Another wish, and the setup that is surely best by it.
struct Wish {
    std::string words;
    std::function<Figure(const SetupFindings&)> cost;  // smaller is better
    double matters;
    bool in_chance;
};

std::vector<Wish> list_wishes(const Findings& race) {
    std::vector<Wish> wishes{
        {"average time", [](const SetupFindings& s) { return s.mean_judged_s; },
         race.matters_s, false},
        {fmt::format("losing less than {} to flats", format_span(race.lost_by_flats_s)),
         [](const SetupFindings& s) { return s.lose_long; }, kChanceMatters, true},
        {"finishing", [](const SetupFindings& s) { return s.no_finish; }, kFinishMatters,
         true}};
    if (!race.goals_s.empty()) {
        wishes.push_back({"the goal",
                          [](const SetupFindings& s) {
                              return Figure{1.0 - s.goals.front().value,
                                            s.goals.front().standard_error};
                          },
                          kChanceMatters, true});
    }
    return wishes;
}

int find_best(const Findings& race, const Wish& wish) {
    int best = -1;
    for (std::size_t s = 0; s < race.setups.size(); ++s) {
        if (race.setups[s].vetoed) continue;
        const auto cost = [&](int k) {
            return wish.cost(race.setups[static_cast<std::size_t>(k)]).value;
        };
        if (best < 0 || cost(static_cast<int>(s)) < cost(best)) {
            best = static_cast<int>(s);
        }
    }
    return best;
}

std::string describe_wish(const Wish& wish, const Findings& race, int best, int choice) {
    const Figure own = wish.cost(race.setups[static_cast<std::size_t>(choice)]);
    const Figure other = wish.cost(race.setups[static_cast<std::size_t>(best)]);
    const Figure gain{own.value - other.value,
                      std::hypot(own.standard_error, other.standard_error)};
    if (gain.value < wish.matters || !is_told_apart(gain)) return "";
    const std::string& name = race.setups[static_cast<std::size_t>(best)].name;
    if (!wish.in_chance) {
        return fmt::format("{} if {} matters most to you ({} less).", name, wish.words,
                           format_span(std::round(gain.value)));
    }
    return fmt::format("{} if {} matters most to you (on {:.1f} more race days in 100).",
                       name, wish.words, 100.0 * gain.value);
}

void append_wishes(const WhyFindings& why, std::vector<std::string>& flips) {
    for (const Wish& wish : list_wishes(why.race)) {
        const int best = find_best(why.race, wish);
        if (best < 0 || best == why.race.verdict.choice) continue;
        std::string text = describe_wish(wish, why.race, best, why.race.verdict.choice);
        if (!text.empty()) flips.push_back(std::move(text));
    }
}

enum class Length { kFull, kShort };

std::vector<std::string> tell_flips(const WhyFindings& why, Length length) {
    std::vector<std::string> flips;
    const int subject = find_subject(why);
    // A toss-up is nothing that could be turned.
    if (subject < 0 || is_toss_up(why)) return flips;
    const Speaker speaker{why,
                          subject,
                          name_setup(why, subject),
                          name_setup(why, why.race.against),
                          why.in_chance ? why.race.verdict.rule : "average time",
                          subject == why.race.verdict.choice,
                          length == Length::kShort};
    for (const BreakEvenFindings& found : why.break_even) {
        if (found.setup == subject && found.not_asked.empty()) {
            append_turns(speaker, found, flips);
        }
    }
    append_wishes(why, flips);
    if (length == Length::kFull) append_never(speaker, flips);
    return flips;
}

// How many races one of these comes in, to two digits or so.
std::string count_races(double share) {
    const double races = 1.0 / share;
    if (races < 10.0) return fmt::format("{:.1f}", races);
    const double step = races < 100.0 ? 1.0 : 10.0;
    return format_count(std::llround(races / step) * std::llround(step));
}

// "1 more flat in 50 races"; nothing when the two are not told apart or it is rare.
std::string describe_count(const char* what, const Figure& own, const Figure& other,
                           const std::string& than) {
    const Figure more{own.value - other.value,
                      std::hypot(own.standard_error, other.standard_error)};
    if (!is_told_apart(more) || std::abs(more.value) < kRareFlat) return "";
    return fmt::format("1 {} {} in {} races than with {}.",
                       more.value > 0.0 ? "more" : "fewer", what,
                       count_races(std::abs(more.value)), than);
}

std::string describe_money(const WhyFindings& why, int choice) {
    for (const TradeOffRow& row : why.trade_off) {
        if (row.setup != choice || !row.price || *row.price <= 0.0) continue;
        if (!row.price_per_s) {
            return fmt::format("It costs {:g} more and saves no time for sure.",
                               *row.price);
        }
        return fmt::format("It costs {:g} more: {:.2g} for each second saved.",
                           *row.price, *row.price_per_s);
    }
    return "";
}

std::string describe_fitting(const WhyFindings& why) {
    const FittingFindings& fitting = why.fitting;
    if (fitting.setup < 0 || !is_told_apart(fitting.spared)) return "";
    if (fitting.spared.value < kRareFlat) return "";
    return fmt::format("Fit early and ride 50 km on the tubes: 1 fewer flat in {} races.",
                       count_races(fitting.spared.value));
}

std::vector<std::string> tell_price(const WhyFindings& why) {
    std::vector<std::string> price;
    const int choice = why.race.verdict.choice;
    if (choice < 0 || is_toss_up(why)) return price;
    const SetupFindings& own = why.race.setups[static_cast<std::size_t>(choice)];
    const SetupFindings& other =
        why.race.setups[static_cast<std::size_t>(why.race.against)];
    std::vector<std::string> all;
    if (choice != why.race.against) {
        all = {
            describe_count("flat", own.flats_per_race, other.flats_per_race, other.name),
            describe_count("day without a finish", own.no_finish, other.no_finish,
                           other.name),
            describe_money(why, choice)};
    }
    all.push_back(describe_fitting(why));
    for (std::string& text : all) {
        if (!text.empty()) price.push_back(std::move(text));
    }
    return price;
}

// A fact that alone, at one end of what it could be, turns the sign.
std::string describe_fact(const FactFindings& fact, const PairFindings& pair,
                          const Speaker& speaker) {
    for (const bool high : {false, true}) {
        const Figure& there = high ? fact.at_high_s : fact.at_low_s;
        const bool turns =
            is_told_apart(there) && (there.value > 0.0) != (pair.mean_s.value > 0.0);
        if (!turns) continue;
        const std::string unit = fact.unit.empty() ? "" : " " + fact.unit;
        return fmt::format("{} is ahead if \"{}\" is near {}{} (it could be {} to {}).",
                           pair.mean_s.value > 0.0 ? speaker.name : speaker.other,
                           fact.label, format_briefly(high ? fact.high : fact.low), unit,
                           format_briefly(fact.low), format_briefly(fact.high));
    }
    return "";
}

std::string describe_worth(const WhyFindings& why) {
    if (!why.information.why_not.empty()) return "";
    const InformationRow* best = nullptr;
    for (const InformationRow& row : why.information.rows) {
        if (row.learning != Learning::kOneFact || !is_told_apart(row.worth)) continue;
        if (best == nullptr || row.worth.value > best->worth.value) best = &row;
    }
    const bool in_chance = why.information.in_chance;
    const double least = in_chance ? kFinishMatters : kWorthLooking_s;
    if (best == nullptr || best->worth.value < least) {
        return "Finding out more before choosing would hardly pay.";
    }
    return fmt::format(
        "Worth finding out first: \"{}\" (saves {} on average).", best->label,
        in_chance ? fmt::format("{:.1f} days in 100", 100.0 * best->worth.value)
                  : format_span(std::round(best->worth.value)));
}

std::string count_ways(double share) {
    return share >= 0.995 ? "over 99" : fmt::format("{:.0f}", 100.0 * share);
}

std::vector<std::string> tell_changes(const WhyFindings& why) {
    std::vector<std::string> changes;
    const int subject = find_subject(why);
    if (subject < 0) return changes;
    const MovesFindings* moves = find_moves(why, subject);
    const PairFindings* pair = find_pair(why, subject);
    if (moves == nullptr || pair == nullptr) return changes;
    const Speaker speaker{why,
                          subject,
                          name_setup(why, subject),
                          name_setup(why, why.race.against),
                          "",
                          subject == why.race.verdict.choice};
    if (is_told_apart(pair->mean_s)) {
        for (const FactFindings& fact : moves->facts) {
            std::string text = describe_fact(fact, *pair, speaker);
            if (!text.empty()) changes.push_back(std::move(text));
        }
        const double other = moves->other_better.value;
        const bool stays = other < 0.5;
        const bool is_subject = (pair->mean_s.value > 0.0) != stays;
        changes.push_back(fmt::format(
            "All in all {} is the better one in {} of 100 ways that what we don't know "
            "could turn out.",
            is_subject ? speaker.name : speaker.other,
            count_ways(stays ? 1.0 - other : other)));
    }
    std::string worth = describe_worth(why);
    if (!worth.empty()) changes.push_back(std::move(worth));
    return changes;
}

}  // namespace

WhySentences tell_why(const WhyFindings& why) {
    return {tell_flips(why, Length::kFull), tell_price(why), tell_changes(why)};
}

std::vector<std::string> tell_turns(const WhyFindings& why) {
    return tell_flips(why, Length::kShort);
}

}  // namespace flattail

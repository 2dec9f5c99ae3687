#include "publish/why/names.h"

#include <fmt/format.h>

#include <cmath>

#include "findings/knowledge/model.h"
#include "publish/words.h"

namespace flattail::publish {

std::string name_question(BreakEvenQuestion question) {
    switch (question) {
        case BreakEvenQuestion::kFlatRate:
            return "flat rate";
        case BreakEvenQuestion::kRepairTime:
            return "repair time";
        case BreakEvenQuestion::kPower:
            return "power";
        case BreakEvenQuestion::kPressure:
            return "gauge error";
        case BreakEvenQuestion::kRollingGain:
            break;
    }
    return "rolling gain";
}

std::string name_unit(BreakEvenQuestion question) {
    switch (question) {
        case BreakEvenQuestion::kFlatRate:
            return "flats per flat";
        case BreakEvenQuestion::kRepairTime:
            return "min";
        case BreakEvenQuestion::kPower:
            return "W";
        case BreakEvenQuestion::kPressure:
            return "psi";
        case BreakEvenQuestion::kRollingGain:
            break;
    }
    return "W per pair at 45 km/h and 85 kg";
}

std::string format_at(BreakEvenQuestion question, double at) {
    switch (question) {
        case BreakEvenQuestion::kFlatRate:
            return fmt::format("{:.1f} x", at);
        case BreakEvenQuestion::kRepairTime:
            return fmt::format("{:.{}f} min", at, at < 9.95 ? 1 : 0);
        case BreakEvenQuestion::kPower:
            return fmt::format("{:.0f} W", at);
        case BreakEvenQuestion::kPressure:
            return fmt::format("{:+.1f} psi", std::abs(at) < 0.05 ? 0.0 : at);
        case BreakEvenQuestion::kRollingGain:
            break;
    }
    return fmt::format("{:.1f} W", std::abs(at) < 0.05 ? 0.0 : at);
}

bool is_told_apart(const Figure& figure) {
    return std::abs(figure.value) > kNineteenInTwenty * figure.standard_error;
}

bool is_told_apart_by_groups(const Figure& figure) {
    return std::abs(figure.value) > findings::kJackknifeFactor * figure.standard_error;
}

std::string format_briefly(double number) {
    const double size = std::abs(number);
    if (size >= 1000.0) return fmt::format("{:.0f}", number);
    return fmt::format("{:.3g}", size < 1e-12 ? 0.0 : number);
}

const std::string& name_setup(const WhyFindings& why, int setup) {
    return why.race.setups[static_cast<std::size_t>(setup)].name;
}

int find_subject(const WhyFindings& why) {
    const Verdict& verdict = why.race.verdict;
    if (verdict.choice < 0 || why.race.pairs.empty()) return -1;
    if (verdict.choice != why.race.against) return verdict.choice;
    if (verdict.runner_up != why.race.against) return verdict.runner_up;
    return why.race.pairs.front().setup;
}

const BreakEvenFindings* find_break_even(const WhyFindings& why, int setup,
                                         BreakEvenQuestion question) {
    for (const BreakEvenFindings& found : why.break_even) {
        if (found.setup == setup && found.question == question) return &found;
    }
    return nullptr;
}

const MovesFindings* find_moves(const WhyFindings& why, int setup) {
    for (const MovesFindings& moves : why.moves) {
        if (moves.setup == setup) return &moves;
    }
    return nullptr;
}

const PairFindings* find_pair(const WhyFindings& why, int setup) {
    for (const PairFindings& pair : why.race.pairs) {
        if (pair.setup == setup) return &pair;
    }
    return nullptr;
}

}  // namespace flattail::publish

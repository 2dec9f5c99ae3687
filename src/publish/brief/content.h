// What a brief says, as plain text: the page, its PDF and the card are laid from this.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/preparation.h"
#include "scenario/model.h"

namespace flattail::publish {

/// A piece with a word in the margin, "CARRY", and one sentence or more.
struct BriefBlock {
    std::string title;
    std::vector<std::string> lines;
};

/// A row of the table of figures: one cell per shown setup.
struct BriefRow {
    std::string label;
    std::vector<std::string> cells;
};

/// What to pump, by the temperature of the air and the bicycle. No columns: no figure,
/// and the lines tell why.
struct BriefPump {
    std::string title;                 // "PUMP Sunday 06:05"
    std::vector<std::string> columns;  // "8 C"
    std::vector<BriefRow> rows;        // "dry": "66/69 psi, 4.5/4.7 bar"
    std::vector<std::string> lines;
};

struct BriefColumn {
    std::string name;
    std::string role;          // "ride this", "fallback"
    std::string wheels;        // tyre, inner, pressures in psi and bar
    std::string brief_wheels;  // the same, front/rear
};

struct BriefContent {
    std::string race;
    std::string day;    // "Sunday 14 June 2026"; may be empty
    std::string rider;  // may be empty
    std::string start;  // "08:05", or "about 08:05"
    std::string aims;   // "Goal 2:35:00. Cutoff 5:15:00."
    bool invented = false;
    bool stopped_early = false;

    std::string advice;     // "Ride Latex"
    std::string certainty;  // "FIRM"; empty when there is nothing to choose
    std::vector<std::string> reasons;
    std::vector<std::string> deadlines;  // what must be done before, with its day

    std::vector<int> shown;  // setups in the table and the dots, the advised first
    std::vector<BriefColumn> columns;
    std::vector<BriefRow> rows;
    std::vector<std::string> also;  // other setups in a sentence each
    BriefPump pump;
    std::vector<BriefBlock> blocks;

    bool has_crosses = false;  // of 50 days, some without a finish
    std::string picture_text;  // what the dots show, in words
    std::string course_text;
    std::string judged_note;  // how days without a finish count
    std::string check;        // "Check 7f3a-21c0"
    std::string footer;       // days, seed, check code, computing error
};

/// All that the findings and the scenario say for one rider. `turns`: what would change
/// the advice.
BriefContent make_brief_content(const Findings& findings, const scenario::Model& model,
                                const PumpPlan& plan,
                                const std::vector<std::string>& turns = {});

/// Names for sentences and tables: on one line, not too long, told apart; those written
/// from right to left do not turn the sentence around them (UAX 9, isolates).
std::vector<std::string> name_setups(const Findings& findings);

/// How a setup is pumped and what is on it: "race 28 mm, latex, front 68 psi (4.7 bar),
/// rear 71 psi (4.9 bar)".
enum class Pressures {
    kApart,
    kTogether
};  // "front 68 psi (4.7 bar), ..." or "68/71 psi"
std::string describe_wheels(const scenario::Model& model, const scenario::Setup& setup,
                            Pressures pressures = Pressures::kApart);

}  // namespace flattail::publish

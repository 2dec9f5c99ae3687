#include <fmt/format.h>

#include "base/instruction_set.h"
#include "bench/bare_ride.h"
#include "bench/divider_limit.h"
#include "bench/rows.h"
#include "bench/shipped.h"
#include "bench/table.h"
#include "bench/timing.h"

namespace flattail::bench {

namespace {

constexpr int kBlocks = 64;
constexpr int kSegments = 900;
constexpr int kLatex = 2;  // any setup would do
constexpr double kBareAim = 75.0, kWholeAim = 50.0;

// The divider's side does as many roots as the other side rides lane-segments.
Work make_divider_load(base::InstructionSet set, double lane_segments) {
    const double roots = lane_segments / count_divider_lanes(set);
    const int rounds = static_cast<int>(roots / kRootsPerRound);
    return [=] { load_divider(set, rounds); };
}

std::string write_both_sides(const Pair& pair, double lane_segments) {
    const double ns = 1e9 / lane_segments;
    return fmt::format("limit {:.3f}, ride {:.3f} ns per race-segment", pair.first_s * ns,
                       pair.second_s * ns);
}

void add_row(const char* what, base::InstructionSet set, const Pair& pair,
             double lane_segments, double aim) {
    const bool is_best = set == base::detect_instruction_set();
    Row row{fmt::format("{}, {}", what, base::name_instruction_set(set)),
            100.0 * pair.ratio,
            " %",
            is_best ? Aim::kAtLeast : Aim::kNone,
            aim,
            0.0,
            write_both_sides(pair, lane_segments)};
    print_row(row);
}

void add_bare_row(const Effort& effort, const support::PreparedRide& prepared,
                  base::InstructionSet set) {
    const BareRide bare = prepare_bare_ride(prepared, kLatex, kBlocks, kSegments);
    const double count = bare.lane_segments();
    const Pair pair = time_by_turns(effort.rounds, make_divider_load(set, count),
                                    [&] { ride_bare(bare); });
    add_row("bare kernel", set, pair, count, kBareAim);
}

// The block's whole ride on days on which nothing sharp waits: traits set, launched,
// marks refreshed, results handed over.
void add_whole_row(const Effort& effort, const support::PreparedRide& prepared,
                   base::InstructionSet set) {
    std::vector<sampling::DayBlock> days;
    for (int b = 0; b < kBlocks; ++b) {
        days.push_back(prepared.days->make_block());
        prepared.days->fill(static_cast<std::uint64_t>(b) * ride::kLanes, days.back());
        days.back().points.clear();
    }
    ride::BlockRider rider(prepared.plan());
    support::Results results;
    const double count =
        static_cast<double>(kBlocks) * ride::kLanes * prepared.road->count();
    const Pair pair = time_by_turns(effort.rounds, make_divider_load(set, count), [&] {
        for (const auto& block : days) {
            rider.ride(block, kLatex, ride::Solver::kFast, results);
        }
    });
    add_row("with launch, marks, pressure, pacing", set, pair, count, kWholeAim);
}

}  // namespace

void add_kernel_rows(const Effort& effort) {
    print_group("Share of the divider's limit (one root, two divides per race-segment)");
    const Scenario scenario = read_shipped("lakeside");
    for (const base::InstructionSet set : base::supported_instruction_sets()) {
        const auto prepared = support::prepare_ride(scenario.model(), set);
        add_bare_row(effort, prepared, set);
        add_whole_row(effort, prepared, set);
    }
}

}  // namespace flattail::bench

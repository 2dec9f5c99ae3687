#include <fmt/format.h>

#include <filesystem>

#include "bench/bare_ride.h"
#include "bench/rows.h"
#include "bench/shipped.h"
#include "bench/table.h"
#include "bench/timing.h"
#include "flattail/publish.h"
#include "study/prepared.h"

namespace flattail::bench {

namespace {

constexpr std::size_t kSixSetups = 6;
constexpr double kSamplingAim = 8.0, kFlatsAim = 15.0, kRaceAim = 2.5;

std::uint64_t count_blocks(std::int64_t races) {
    return static_cast<std::uint64_t>(races) / ride::kLanes;
}

void add_sampling_row(const Effort& effort) {
    const Scenario scenario = with_setups(read_shipped("lakeside"), kSixSetups);
    const StudyOptions options = make_options(effort.races);
    const study::Prepared prepared = study::prepare(scenario.model(), options);
    sampling::DayBlock days = prepared.days->make_block();
    const auto draw = [&] {
        for (std::uint64_t b = 0; b < count_blocks(effort.races); ++b) {
            prepared.days->fill(b * ride::kLanes, days);
        }
    };
    const Pair pair =
        time_by_turns(effort.rounds, draw, [&] { run_study(scenario, options); });
    print_row({"drawing days, of a six-setup race on lakeside", 100.0 * pair.ratio, " %",
               Aim::kAtMost, kSamplingAim, 0.0,
               fmt::format("{:.3f} s of {:.3f} s", pair.first_s, pair.second_s)});
}

enum class Flats { kMet, kTakenAway };

// Every ride of the study, with the points of its days or without.
double time_rides(const study::Prepared& prepared, std::int64_t races, Flats flats) {
    ride::BlockRider rider(prepared.ride_plan());
    sampling::DayBlock days = prepared.days->make_block();
    support::Results results;
    const int setups = static_cast<int>(prepared.model->setups.size());
    double spent_s = 0.0;
    for (std::uint64_t b = 0; b < count_blocks(races); ++b) {
        prepared.days->fill(b * ride::kLanes, days);
        if (flats == Flats::kTakenAway) days.points.clear();
        const double start = read_cpu_s();
        for (int s = 0; s < setups; ++s) {
            rider.ride(days, s, ride::Solver::kFast, results);
        }
        spent_s += read_cpu_s() - start;
    }
    return spent_s;
}

void add_flats_row(const Effort& effort) {
    const Scenario scenario = read_shipped("hills");
    const StudyOptions options = make_options(effort.races);
    const study::Prepared prepared = study::prepare(scenario.model(), options);
    std::vector<double> flats_s, race_s, of_race, of_riding;
    run_study(scenario, options);
    for (int round = 0; round < effort.rounds; ++round) {
        const double with = time_rides(prepared, effort.races, Flats::kMet);
        const double without = time_rides(prepared, effort.races, Flats::kTakenAway);
        const double start = read_cpu_s();
        run_study(scenario, options);
        race_s.push_back(read_cpu_s() - start);
        flats_s.push_back(with - without);
        of_race.push_back(flats_s.back() / race_s.back());
        of_riding.push_back(flats_s.back() / with);
    }
    print_row({"flats and restarts, of a race on hills", 100.0 * find_median(of_race),
               " %", Aim::kAtMost, kFlatsAim, 0.0,
               fmt::format("{:.3f} s of {:.3f} s; of riding alone {:.0f} %",
                           find_median(flats_s), find_median(race_s),
                           100.0 * find_median(of_riding))});
}

// The command `race` but for reading the scenario: study, page and all tables.
void run_race(const Scenario& scenario, const StudyOptions& options,
              const std::string& folder) {
    prepare_tables_directory(folder);
    const Findings findings = run_study(scenario, options);
    write_tables(findings, folder);
    write_page(findings);
}

void add_race_row(const Effort& effort) {
    const Scenario scenario = read_shipped("lakeside");
    const StudyOptions options = make_options(effort.races);
    const auto prepared = support::prepare_ride(scenario.model());
    const std::string folder =
        (std::filesystem::temp_directory_path() / "flattail-bench-race").string();
    const std::uint64_t blocks = count_blocks(effort.races);
    constexpr int kBlocksAtOnce = 16;
    std::vector<BareRide> bare;
    const int setups = static_cast<int>(scenario.model().setups.size());
    for (int s = 0; s < setups; ++s) {
        bare.push_back(prepare_bare_ride(prepared, s, kBlocksAtOnce));
    }
    const Pair pair = time_by_turns(
        effort.rounds, [&] { run_race(scenario, options, folder); },
        [&] {
            for (std::uint64_t b = 0; b < blocks; b += kBlocksAtOnce) {
                for (const BareRide& setup : bare) ride_bare(setup);
            }
        });
    std::filesystem::remove_all(folder);
    print_row({fmt::format("whole race on lakeside, {} days / bare", effort.races),
               pair.ratio, " x", Aim::kAtMost, kRaceAim, 0.0,
               fmt::format("{:.3f} s, {:.3f} s", pair.first_s, pair.second_s)});
}

}  // namespace

void add_share_rows(const Effort& effort) {
    print_group("What a whole race is made of, one thread");
    add_sampling_row(effort);
    add_flats_row(effort);
    add_race_row(effort);
}

}  // namespace flattail::bench

#include <fmt/format.h>
#include <unistd.h>

#include <cmath>
#include <filesystem>

#include "bench/bare_ride.h"
#include "bench/numpy_side.h"
#include "bench/rows.h"
#include "bench/shipped.h"
#include "bench/table.h"
#include "bench/textbook_ride.h"
#include "bench/timing.h"

namespace flattail::bench {

namespace {

constexpr int kSegments = 900;
constexpr int kLatex = 2;
constexpr int kBlocks = 64;         // 4,096 days
constexpr int kTextbookBlocks = 4;  // the slow side takes long enough with these
constexpr double kTextbookAim = 70.0, kNumpyAim = 18.0;
// Newton to 1e-6 m/s on every segment against roots to 1e-9; and one Halley step from
// the same guess, where only block-segments that were settled differ.
constexpr double kSameRoots = 1e-6, kSameStep = 5e-4;

// A folder of this run's own, gone with it.
struct Folder {
    std::filesystem::path path = std::filesystem::temp_directory_path() /
                                 fmt::format("flattail-bench-{}", getpid());

    Folder() { std::filesystem::create_directory(path); }
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(path, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
};

template <class RideBlock>
double find_worst(const BareRide& bare, const std::vector<double>& times_s,
                  const RideBlock& ride_block) {
    double worst = 0.0;
    for (std::size_t b = 0; b * ride::kLanes < times_s.size(); ++b) {
        ride::LaneBlock block = bare.starts[b];
        ride_block(block);
        for (std::size_t j = 0; j < ride::kLanes; ++j) {
            const double ratio = times_s[b * ride::kLanes + j] / block.time[j];
            worst = std::max(worst, std::abs(ratio - 1.0));
        }
    }
    return worst;
}

bool report_agreement(const char* who, double worst, double allowed) {
    print_note(fmt::format("{}: worst of all finish times {:.1e} off, {:.0e} allowed{}",
                           who, worst, allowed, worst <= allowed ? "" : ": DISAGREES"));
    return worst <= allowed;
}

bool add_textbook_row(const Effort& effort, const support::PreparedRide& prepared) {
    const BareRide bare = prepare_bare_ride(prepared, kLatex, kTextbookBlocks, kSegments);
    std::vector<TextbookRider> riders;
    for (std::size_t b = 0; b < bare.starts.size(); ++b) {
        const auto block = list_textbook_riders(bare.terms[b], bare.starts[b]);
        riders.insert(riders.end(), block.begin(), block.end());
    }
    constexpr int kRepeats = 16;  // of the quick side, so that its clock sees enough
    std::vector<double> times_s;
    const Pair pair = time_by_turns(
        effort.rounds, [&] { times_s = ride_textbook(bare.road, riders); },
        [&] {
            for (int i = 0; i < kRepeats; ++i) ride_bare(bare);
        });
    const double ns = 1e9 / bare.lane_segments();
    print_row({"textbook scalar loop / bare kernel", pair.ratio * kRepeats, " x",
               Aim::kAtLeast, kTextbookAim, 0.0,
               fmt::format("{:.1f}, {:.3f} ns per race-segment", pair.first_s * ns,
                           pair.second_s * ns / kRepeats)});
    const double worst = find_worst(bare, times_s, [&](ride::LaneBlock& block) {
        ride::SettleCount settled;
        bare.kernel->ride_converged(bare.road.data(), bare.segments(), block, settled);
    });
    return report_agreement("textbook and converged kernel", worst, kSameRoots);
}

bool add_numpy_row(const Effort& effort, const support::PreparedRide& prepared) {
    const BareRide bare = prepare_bare_ride(prepared, kLatex, kBlocks, kSegments);
    const Folder folder;
    write_numpy_tables(bare, folder.path);
    std::vector<double> numpy_s, ours_s, ratios;
    std::optional<NumpyRide> numpy;
    ride_bare(bare);
    for (int round = 0; round < effort.rounds; ++round) {
        numpy = run_numpy(effort.python, folder.path);
        if (!numpy) {
            print_note("NumPy row left out: " + effort.python + " has no NumPy");
            return true;
        }
        const double start = read_cpu_s();
        ride_bare(bare);
        ours_s.push_back(read_cpu_s() - start);
        numpy_s.push_back(numpy->cpu_s);
        ratios.push_back(numpy_s.back() / ours_s.back());
    }
    const double ns = 1e9 / bare.lane_segments();
    print_row({fmt::format("NumPy, {} days at once / bare kernel", numpy->width),
               find_median(ratios), " x", Aim::kAtLeast, kNumpyAim, 0.0,
               fmt::format("{:.1f}, {:.3f} ns per race-segment",
                           find_median(numpy_s) * ns, find_median(ours_s) * ns)});
    const double worst = find_worst(bare, numpy->times_s, [&](ride::LaneBlock& block) {
        ride::SettleCount settled;
        bare.kernel->ride_fast(bare.road.data(), bare.guesses.data(), bare.segments(),
                               block, settled);
    });
    return report_agreement("NumPy and bare kernel", worst, kSameStep);
}

}  // namespace

bool add_baseline_rows(const Effort& effort) {
    print_group("Against what one would write instead, same model, one core");
    const Scenario scenario = read_shipped("lakeside");
    const auto prepared = support::prepare_ride(scenario.model());
    const bool textbook = add_textbook_row(effort, prepared);
    const bool numpy = add_numpy_row(effort, prepared);
    return textbook && numpy;
}

}  // namespace flattail::bench

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <limits>
#include <stdexcept>
#include <thread>

#include "bench/child.h"
#include "bench/rows.h"
#include "bench/shipped.h"
#include "bench/table.h"
#include "bench/timing.h"
#include "study/prepared.h"

namespace flattail::bench {

namespace {

constexpr double kThreadsAim = 1.9;
constexpr double kExponent = 1.0, kExponentTolerance = 0.03;
constexpr double kBytesPerRideAim = 16.0, kFixedMegabytesAim = 60.0;

void add_threads_row(const Effort& effort) {
    if (std::thread::hardware_concurrency() < 2) {
        print_note("threads row left out: this machine has one core");
        return;
    }
    const Scenario scenario = read_shipped("lakeside");
    StudyOptions one = make_options(effort.races), two = one;
    two.threads = 2;
    const Pair pair = time_by_turns(
        effort.rounds, [&] { run_study(scenario, one); },
        [&] { run_study(scenario, two); }, read_wall_s);
    print_row({"one thread / two threads, lakeside", pair.ratio, " x", Aim::kAtLeast,
               kThreadsAim, 0.0,
               fmt::format("{:.3f} s, {:.3f} s by the wall clock", pair.first_s,
                           pair.second_s)});
}

struct Size {
    double amount;
    Work work;
    std::vector<double> spent_s;
};

struct Growth {
    double exponent = 0.0;
    double fixed_s = 0.0;
};

// Weighted least squares of t = a + b n^p at a given p; each time counts by its inverse
// square, so that all sizes count alike. Returns the sum of squares and a.
std::pair<double, double> fit_line(const std::vector<Size>& sizes, double p) {
    double w = 0, x = 0, y = 0, xx = 0, xy = 0, yy = 0;
    for (const Size& size : sizes) {
        const double t = find_median(size.spent_s), weight = 1.0 / (t * t);
        const double n = std::pow(size.amount / sizes.front().amount, p);
        w += weight, x += weight * n, y += weight * t;
        xx += weight * n * n, xy += weight * n * t, yy += weight * t * t;
    }
    const double b = (w * xy - x * y) / (w * xx - x * x), a = (y - b * x) / w;
    return {yy - a * y - b * xy, a};
}

// p of t = a + b n^p; a is what every size pays: preparing, and rides for the parts of
// the difference.
Growth fit_growth(const std::vector<Size>& sizes) {
    constexpr double kLow = 0.5, kHigh = 1.5, kStep = 0.001;
    Growth best;
    double least = std::numeric_limits<double>::infinity();
    for (double p = kLow; p <= kHigh; p += kStep) {
        const auto [squares, fixed_s] = fit_line(sizes, p);
        if (squares < least) {
            least = squares;
            best = {p, fixed_s};
        }
    }
    return best;
}

void add_exponent_row(const Effort& effort, const char* what, std::vector<Size> sizes) {
    sizes.back().work();
    for (int round = 0; round < effort.growth_rounds; ++round) {
        for (Size& size : sizes) {
            const double start = read_cpu_s();
            size.work();
            size.spent_s.push_back(read_cpu_s() - start);
        }
    }
    const Growth growth = fit_growth(sizes);
    const Size &few = sizes.front(), &many = sizes.back();
    print_row(
        {fmt::format("exponent in {}, {:.0f} to {:.0f}", what, few.amount, many.amount),
         growth.exponent, "", Aim::kNear, kExponent, kExponentTolerance,
         fmt::format("{:.3f} s to {:.3f} s, of it {:.3f} s whatever the size",
                     find_median(few.spent_s), find_median(many.spent_s),
                     growth.fixed_s)});
}

void add_days_row(const Effort& effort) {
    const Scenario scenario = read_shipped("lakeside");
    std::vector<Size> sizes;
    for (const int factor : {1, 2, 4, 8, 16}) {
        const StudyOptions options = make_options(factor * effort.growth_races);
        sizes.push_back({static_cast<double>(options.races),
                         [=] { run_study(scenario, options); },
                         {}});
    }
    add_exponent_row(effort, "days", sizes);
}

void add_segments_row(const Effort& effort) {
    const StudyOptions options = make_options(effort.growth_races);
    std::vector<Size> sizes;
    for (const int laps : {1, 2, 3, 4, 6}) {
        const Scenario scenario =
            read_shipped("lakeside", {fmt::format("race.laps={}", laps),
                                      fmt::format("race.goal=\"{}:00:00\"", 3 * laps)});
        const int segments = study::prepare(scenario.model(), options).road->count();
        sizes.push_back(
            {static_cast<double>(segments), [=] { run_study(scenario, options); }, {}});
    }
    add_exponent_row(effort, "segments", sizes);
}

void add_setups_row(const Effort& effort) {
    const StudyOptions options = make_options(effort.growth_races);
    const Scenario scenario = read_shipped("lakeside");
    std::vector<Size> sizes;
    for (const std::size_t setups : {2u, 4u, 8u, 12u, 16u, 24u}) {
        const Scenario more = with_setups(scenario, setups);
        sizes.push_back(
            {static_cast<double>(setups), [=] { run_study(more, options); }, {}});
    }
    add_exponent_row(effort, "setups", sizes);
}

// Peak resident memory of this program running one study and nothing else, bytes. It
// tells itself: what the system keeps for a parent includes the parent's own memory.
double measure_peak_bytes(std::int64_t races) {
    const std::string program = std::filesystem::read_symlink("/proc/self/exe").string();
    const std::string text =
        read_output(fmt::format("'{}' {} {}", program, kMemoryStudy, races));
    if (text.empty()) throw std::runtime_error("the study of the memory row failed");
    return 1024.0 * std::stod(text);
}

void add_memory_rows(const Effort& effort) {
    const std::int64_t few = effort.races, many = 4 * effort.races;
    const double setups =
        static_cast<double>(read_shipped("lakeside").model().setups.size());
    const double few_bytes = measure_peak_bytes(few),
                 many_bytes = measure_peak_bytes(many);
    const double per_ride =
        (many_bytes - few_bytes) / (setups * static_cast<double>(many - few));
    const double fixed = few_bytes - per_ride * setups * static_cast<double>(few);
    print_row({"memory per ride", per_ride, " B", Aim::kAtMost, kBytesPerRideAim, 0.0,
               fmt::format("peaks of {:.0f} MB at {} days, {:.0f} MB at {}",
                           few_bytes / 1e6, few, many_bytes / 1e6, many)});
    print_row({"memory whatever the size", fixed / 1e6, " MB", Aim::kAtMost,
               kFixedMegabytesAim, 0.0, "from the same two"});
}

}  // namespace

void run_memory_study(std::int64_t races) {
    run_study(read_shipped("lakeside"), make_options(races));
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;) {
        if (word != "VmHWM:") continue;
        status >> word;
        fmt::print("{}\n", word);  // kB
    }
}

void add_growth_rows(const Effort& effort) {
    print_group("Growth of a whole study");
    add_threads_row(effort);
    add_days_row(effort);
    add_segments_row(effort);
    add_setups_row(effort);
    add_memory_rows(effort);
}

}  // namespace flattail::bench

#include "bench/numpy_side.h"

#include <fmt/format.h>

#include <cstdio>
#include <fstream>
#include <stdexcept>

#include "bench/child.h"

namespace flattail::bench {

namespace {

// Days at once: from what fits the first cache to what leaves it far behind.
constexpr const char* kWidths = "512 1024 2048 4096";

void write_road(const BareRide& bare, std::ofstream& file) {
    file << "inv_length,twice_length,sin_slope,cos_slope,head_x,head_y,shelter_sq,"
            "air_ratio,pace,wind_pace,cap_m_s,limit_m_s,surface,c0,cv,cvv,cp,cw\n";
    for (std::size_t i = 0; i < bare.road.size(); ++i) {
        const ride::SegmentTerms& q = bare.road[i];
        const ride::GuessTerms& p = bare.guesses[i];
        file << fmt::format("{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{},{}\n",
                            q.inv_length, q.twice_length, q.sin_slope, q.cos_slope,
                            q.head_x, q.head_y, q.shelter_sq, q.air_ratio, q.pace,
                            q.wind_pace, q.cap_m_s, q.limit_m_s, q.surface, p.c0, p.cv,
                            p.cvv, p.cp, p.cw);
    }
}

void write_days(const BareRide& bare, std::ofstream& file) {
    file << "speed,time,power,drag,rolling0,rolling1,rolling2,rolling3,wind_x,wind_y,"
            "weight,bearing0,bearing1,cap_ratio\n";
    for (const ride::LaneBlock& b : bare.starts) {
        for (int j = 0; j < ride::kLanes; ++j) {
            file << fmt::format("{},{},{},{},{},{},{},{},{},{},{},{},{},{}\n", b.speed[j],
                                b.time[j], b.power[j], b.drag[j], b.rolling[0][j],
                                b.rolling[1][j], b.rolling[2][j], b.rolling[3][j],
                                b.wind_x[j], b.wind_y[j], b.weight[j], b.bearing0[j],
                                b.bearing1[j], b.cap_ratio[j]);
        }
    }
}

}  // namespace

void write_numpy_tables(const BareRide& bare, const std::filesystem::path& folder) {
    std::ofstream road(folder / "road.csv"), days(folder / "days.csv");
    write_road(bare, road);
    write_days(bare, days);
    if (!road.flush() || !days.flush()) {
        throw std::runtime_error("could not write to " + folder.string());
    }
}

std::optional<NumpyRide> run_numpy(const std::string& python,
                                   const std::filesystem::path& folder) {
    if (read_output(python + " -c 'import numpy; print(1)' 2>/dev/null").empty()) {
        return std::nullopt;
    }
    const std::string text =
        read_output(fmt::format("{} {}/tests/bench/numpy_ride.py {} {}", python,
                                FLATTAIL_SOURCE_DIR, folder.string(), kWidths));
    NumpyRide ride;
    if (std::sscanf(text.c_str(), "%d %lf", &ride.width, &ride.cpu_s) != 2) {
        throw std::runtime_error("numpy_ride.py did not say how long it took");
    }
    std::ifstream times(folder / "times.csv");
    for (double time_s = 0.0; times >> time_s;) ride.times_s.push_back(time_s);
    return ride;
}

}  // namespace flattail::bench

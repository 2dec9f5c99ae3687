#include "sampling/flat_points.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sampling/address.h"
#include "sampling/poisson.h"
#include "sampling/wheel_hazard.h"

namespace flattail::sampling {

namespace {

// Draws of one point within a process and strip: its place and its height.
constexpr std::uint32_t kDrawsPerPoint = 2;
constexpr std::uint32_t kMostPoints =
    256;                         // per strip and day; the expected number is below 1
constexpr int kMostStrips = 24;  // heights up to 2^23

struct Names {
    std::uint32_t count;
    std::uint32_t point;
};

// One stream for each wheel and cause; frozen.
const Names kNames[kWheels * kCauses] = {
    {hash_input_name("flat.front.cut.count"), hash_input_name("flat.front.cut.point")},
    {hash_input_name("flat.front.pinch.count"),
     hash_input_name("flat.front.pinch.point")},
    {hash_input_name("flat.front.fitting.count"),
     hash_input_name("flat.front.fitting.point")},
    {hash_input_name("flat.rear.cut.count"), hash_input_name("flat.rear.cut.point")},
    {hash_input_name("flat.rear.pinch.count"), hash_input_name("flat.rear.pinch.point")},
    {hash_input_name("flat.rear.fitting.count"),
     hash_input_name("flat.rear.fitting.point")},
};
const std::uint32_t kGroupedCount = hash_input_name("flat.grouped.count");
const std::uint32_t kGroupedPoint = hash_input_name("flat.grouped.point");
constexpr std::uint32_t kGroupedKey = 1u << 24;  // above every plain key

double strip_bottom(int strip) { return strip == 0 ? 0.0 : std::ldexp(1.0, strip - 1); }
double strip_top(int strip) { return std::ldexp(1.0, strip); }

FlatCause cause_of(int process) { return static_cast<FlatCause>(process % kCauses); }
int wheel_of(int process) { return process / kCauses; }

// The smallest n >= 3 whose share among the counts of 3 and more reaches u.
int draw_many(double u, double mean) {
    const double tail = poisson_tail(3, mean);
    double sum = 0.0;
    int n = 3;
    for (; n < 64; ++n) {
        sum += poisson_probability(n, mean);
        if (sum >= u * tail) break;
    }
    return n;
}

double find_group_chance(DayGroup group, double mean) {
    switch (group) {
        case DayGroup::kNone:
            return std::exp(-mean);
        case DayGroup::kOne:
            return mean * std::exp(-mean);
        case DayGroup::kTwo:
            return 0.5 * mean * mean * std::exp(-mean);
        case DayGroup::kMore:
            return poisson_tail(3, mean);
        case DayGroup::kPlain:
            break;
    }
    return 1.0;
}

DayGroup group_of_count(int count) {
    return static_cast<DayGroup>(std::min(count, 3) + 1);
}

double group_share(DayGroup group) {
    return kGroupLanes[static_cast<std::size_t>(group)] / static_cast<double>(kLanes);
}

// Balance heuristic over the plain share and the group that this count belongs to.
double compute_weight(int count, double mean) {
    const DayGroup group = group_of_count(count);
    const double chance = find_group_chance(group, mean);
    if (chance <= 0.0) return 0.0;
    return 1.0 / (group_share(DayGroup::kPlain) + group_share(group) / chance);
}

}  // namespace

void FlatPoints::fill_plain(const Rates& rates, DayBlock& block) const {
    for (int process = 0; process < kProcesses; ++process) {
        const double highest =
            *std::max_element(rates.top[process], rates.top[process] + kLanes);
        for (int strip = 0; strip < kMostStrips && strip_bottom(strip) < highest;
             ++strip) {
            fill_strip(rates, process, strip, block);
        }
    }
}

void FlatPoints::fill_strip(const Rates& rates, int process, int strip,
                            DayBlock& block) const {
    const double bottom = strip_bottom(strip), width = strip_top(strip) - bottom;
    double u[kLanes];
    const auto draw = static_cast<std::uint32_t>(strip);
    math_->fill_uniform(Stream{seed_, kNames[process].count, draw}, block.first_day, u);
    for (int j = 0; j < kLanes; ++j) {
        if (block.group[static_cast<std::size_t>(j)] != DayGroup::kPlain) continue;
        const double mean = rates.mean[process][j] * width;
        // 1 - mean <= e^-mean, so most lanes need no exponential.
        if (u[j] <= 1.0 - mean || bottom >= rates.top[process][j]) continue;
        const int count = poisson_quantile(u[j], std::min(mean, kLargestPoissonMean));
        for (int i = 0; i < std::min<int>(count, kMostPoints); ++i) {
            const auto id = static_cast<std::uint32_t>(strip) * kMostPoints +
                            static_cast<std::uint32_t>(i);
            const std::uint64_t day = block.first_day + static_cast<std::uint64_t>(j);
            Address address{seed_, kNames[process].point, day, id * kDrawsPerPoint};
            FlatPoint point;
            point.place_m = road_->find_place_m(cause_of(process), draw_uniform(address));
            ++address.draw;
            point.height = bottom + width * draw_uniform(address);
            point.lane = static_cast<std::uint8_t>(j);
            point.wheel = static_cast<std::uint8_t>(wheel_of(process));
            point.cause = cause_of(process);
            point.key = static_cast<std::uint32_t>(process) << 16 | id;
            block.points.push_back(point);
        }
    }
}

void FlatPoints::add_grouped_points(const Rates& rates, int lane, int count, double total,
                                    DayBlock& block) const {
    const std::uint64_t day = block.first_day + static_cast<std::uint64_t>(lane);
    for (int i = 0; i < count; ++i) {
        const auto id = static_cast<std::uint32_t>(i);
        Address address{seed_, kGroupedPoint, day, id * 3};
        double left = draw_uniform(address) * total;
        int process = 0;
        for (; process < kProcesses - 1; ++process) {
            const double mean = rates.mean[process][lane] * rates.top[process][lane];
            if (left < mean) break;
            left -= mean;
        }
        ++address.draw;
        FlatPoint point;
        point.place_m = road_->find_place_m(cause_of(process), draw_uniform(address));
        ++address.draw;
        point.height = rates.top[process][lane] * draw_uniform(address);
        point.lane = static_cast<std::uint8_t>(lane);
        point.wheel = static_cast<std::uint8_t>(wheel_of(process));
        point.cause = cause_of(process);
        point.key = kGroupedKey | id;
        block.points.push_back(point);
    }
}

void FlatPoints::fill_grouped(const Rates& rates, DayBlock& block) const {
    double u[kLanes];
    math_->fill_uniform(Stream{seed_, kGroupedCount, 0}, block.first_day, u);
    std::array<int, kLanes> counts{};
    for (const FlatPoint& point : block.points) counts[point.lane] += 1;
    for (int j = 0; j < kLanes; ++j) {
        const auto lane = static_cast<std::size_t>(j);
        double total = 0.0;
        for (int p = 0; p < kProcesses; ++p) total += rates.mean[p][j] * rates.top[p][j];
        const DayGroup group = block.group[lane];
        // A plain day's own points, counted below the tops only: the others cannot hit
        // anyone.
        int count = counts[lane];
        if (group != DayGroup::kPlain) {
            count = static_cast<int>(group) - 1;
            if (group == DayGroup::kMore && total > 0.0) count = draw_many(u[j], total);
            if (total > 0.0) add_grouped_points(rates, j, count, total, block);
        }
        block.weight[lane] = compute_weight(count, total);
    }
}

void FlatPoints::sort_points(DayBlock& block) const {
    std::sort(block.points.begin(), block.points.end(),
              [](const FlatPoint& a, const FlatPoint& b) {
                  if (a.lane != b.lane) return a.lane < b.lane;
                  if (a.place_m != b.place_m) return a.place_m < b.place_m;
                  return a.key < b.key;
              });
}

bool FlatPoints::is_grouped(const DayBlock& block) const {
    return block.first_day < grouped_days_ && grouped_days_ - block.first_day >= kLanes;
}

void FlatPoints::fill(DayBlock& block) const {
    Rates rates;
    compute_rates(block, rates);
    block.points.clear();
    block.weight.fill(1.0);
    block.group.fill(DayGroup::kPlain);
    if (is_grouped(block)) {
        std::size_t lane = 0;
        for (int g = 0; g < kGroups; ++g) {
            for (int i = 0; i < kGroupLanes[static_cast<std::size_t>(g)]; ++i) {
                block.group[lane++] = static_cast<DayGroup>(g);
            }
        }
    }
    fill_plain(rates, block);
    // Points above the tops hit nobody; without them the count is what the groups count.
    std::erase_if(block.points, [&](const FlatPoint& point) {
        const int process = point.wheel * kCauses + static_cast<int>(point.cause);
        return point.height >= rates.top[process][point.lane];
    });
    if (is_grouped(block)) fill_grouped(rates, block);
    sort_points(block);
}

}  // namespace flattail::sampling

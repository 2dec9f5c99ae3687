#include "study/pressure/trace.h"

#include <algorithm>

#include "ride/setup_lanes.h"
#include "ride/wheel_gas.h"

namespace flattail::study {

namespace {

using ride::kLanes;

// 1,024 days: the ends of a 9-in-10 range to a few hundredths of a psi.
constexpr std::size_t kTraceBlocks = 16;

// Before the start: no forecast is followed, only pump and start (METHOD 5.17).
void read_waiting(const Prepared& prepared, const ride::Waits& waits, double share,
                  ride::LaneTerms& terms) {
    double until_s[kLanes];
    const double* warm_k = share >= 0.5 ? waits.pump_k : waits.start_k;
    for (int j = 0; j < kLanes; ++j) until_s[j] = -share * waits.waiting_s[j];
    const ride::RefreshTerms& refresh = prepared.road->refresh;
    prepared.kernel->leak(refresh, warm_k, until_s, terms, {});
    for (int w = 0; w < ride::kWheelCount; ++w) {
        for (int j = 0; j < kLanes; ++j) {
            const auto& gas = terms.gas_pa[w];
            const double held = gas[0][j] + gas[1][j] + gas[2][j];
            terms.gauge_pa[w][j] =
                held * warm_k[j] / terms.gas_k[j] - refresh.air_pressure_pa;
        }
    }
}

void read_riding(const Prepared& prepared, double time_s, ride::LaneTerms& terms,
                 ride::LaneBlock& block) {
    ride::RefreshTerms refresh = prepared.road->refresh;
    refresh.forecast = &prepared.road->forecast;
    std::fill(block.time, block.time + kLanes, time_s);
    prepared.kernel->refresh_pressure(refresh, terms, block, {});
}

}  // namespace

double PressureTrace::read_pa(std::size_t time, std::size_t wheel, double u) const {
    const std::vector<double>& all = sorted_pa[time][wheel];
    return all[static_cast<std::size_t>(u * static_cast<double>(all.size() - 1))];
}

PressureTrace trace_pressures(const Prepared& prepared, const scenario::Setup& setup,
                              const std::vector<double>& times_s) {
    PressureTrace trace;
    trace.sorted_pa.resize(times_s.size());
    const double before_s = prepared.model->preparation.before_s;
    sampling::DayBlock days = prepared.days->make_block();
    ride::LaneTerms terms;
    ride::LaneBlock block;
    for (std::size_t b = 0; b < kTraceBlocks; ++b) {
        prepared.days->fill(b * kLanes, days);
        ride::set_lanes(*prepared.model, *prepared.road, ride::Traits::of(setup), days,
                        terms, block);
        const ride::Waits waits =
            ride::find_waits(*prepared.model, *prepared.road, terms);
        for (std::size_t t = 0; t < times_s.size(); ++t) {
            if (times_s[t] < 0.0) {
                read_waiting(prepared, waits, -times_s[t] / before_s, terms);
            } else {
                read_riding(prepared, times_s[t], terms, block);
            }
            for (std::size_t w = 0; w < trace.sorted_pa[t].size(); ++w) {
                auto& all = trace.sorted_pa[t][w];
                all.insert(all.end(), terms.gauge_pa[w], terms.gauge_pa[w] + kLanes);
            }
        }
    }
    for (auto& wheels : trace.sorted_pa) {
        for (auto& all : wheels) std::sort(all.begin(), all.end());
    }
    return trace;
}

double find_typical_ride_s(const Prepared& prepared, int setup) {
    ride::BlockRider rider(prepared.ride_plan());
    sampling::DayBlock days = prepared.days->make_block();
    std::array<ride::RideResult, kLanes> results;
    std::vector<double> times_s;
    for (std::size_t b = 0; b < kTraceBlocks; ++b) {
        prepared.days->fill(b * kLanes, days);
        days.points.clear();
        rider.ride(days, setup, ride::Solver::kFast, results);
        for (const auto& result : results) times_s.push_back(result.time_s);
    }
    const auto middle = times_s.begin() + static_cast<std::ptrdiff_t>(times_s.size() / 2);
    std::nth_element(times_s.begin(), middle, times_s.end());
    return *middle;
}

}  // namespace flattail::study

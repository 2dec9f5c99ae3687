#include "bench/bare_ride.h"

#include "ride/setup_lanes.h"

namespace flattail::bench {

namespace {

void launch_block(const support::PreparedRide& p, int setup, sampling::DayBlock& days,
                  ride::LaneTerms& terms, ride::LaneBlock& block) {
    const scenario::Setup* one = &p.model->setups[static_cast<std::size_t>(setup)];
    ride::set_lanes(*p.model, *p.road, {one, one, one}, days, terms, block);
    ride::RefreshTerms refresh = p.road->refresh;
    refresh.forecast = &p.road->forecast;
    const ride::PlaceFactors place{days.power_factor.data(), days.wind_factor.data()};
    p.kernel->refresh_pressure(refresh, terms, block, ride::LaneRange{});
    p.kernel->refresh(refresh, place, terms, block, ride::LaneRange{});
    p.kernel->launch(p.road->terms.front(), p.model->rider.launch_force_n, terms, block);
}

}  // namespace

double BareRide::lane_segments() const {
    return static_cast<double>(segments()) * static_cast<double>(starts.size()) *
           ride::kLanes;
}

BareRide prepare_bare_ride(const support::PreparedRide& prepared, int setup, int blocks,
                           int segments) {
    BareRide bare;
    bare.kernel = prepared.kernel;
    const auto whole = prepared.road->terms.size() - 1;
    const std::size_t count = segments > 0 ? static_cast<std::size_t>(segments) : whole;
    for (std::size_t i = 0; i < count; ++i) {
        bare.road.push_back(prepared.road->terms[1 + i % whole]);
        bare.guesses.push_back(prepared.guesses[1 + i % whole]);
    }
    bare.starts.resize(static_cast<std::size_t>(blocks));
    bare.terms.resize(bare.starts.size());
    sampling::DayBlock days = prepared.days->make_block();
    for (std::size_t b = 0; b < bare.starts.size(); ++b) {
        prepared.days->fill(b * ride::kLanes, days);
        launch_block(prepared, setup, days, bare.terms[b], bare.starts[b]);
    }
    return bare;
}

double ride_bare(const BareRide& bare) {
    ride::LaneBlock block;
    ride::SettleCount settled;
    for (const ride::LaneBlock& start : bare.starts) {
        block = start;
        bare.kernel->ride_fast(bare.road.data(), bare.guesses.data(), bare.segments(),
                               block, settled);
    }
    return block.time[0];
}

}  // namespace flattail::bench

#include "support/prepared_ride.h"

namespace flattail::support {

PreparedRide prepare_ride(const scenario::Model& model, base::InstructionSet set) {
    PreparedRide p;
    p.model = &model;
    p.kernel = &ride::find_kernel(set);
    p.road = std::make_unique<ride::Road>(ride::build_road(model));
    p.hazard = std::make_unique<sampling::RoadHazard>(p.road->segments,
                                                      model.flats.rough_pinch_ratio);
    const sampling::DayPlanOptions options{1, 0, set};
    p.days =
        std::make_unique<sampling::DayPlan>(model, *p.hazard, p.road->mark_m, options);
    p.guesses = ride::fit_guesses(model, *p.road, *p.days, *p.kernel);
    return p;
}

Results ride_block(const scenario::Model& model, int setup, ride::Solver solver,
                   base::InstructionSet set, std::uint64_t first_day) {
    const PreparedRide prepared = prepare_ride(model, set);
    ride::BlockRider rider(prepared.plan());
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(first_day, days);
    Results results;
    rider.ride(days, setup, solver, results);
    return results;
}

}  // namespace flattail::support

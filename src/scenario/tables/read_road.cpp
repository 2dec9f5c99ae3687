// How the road rolls, and how often wheels go flat on it.
#include <cmath>

#include "chance/make_distribution.h"
#include "physics/flat_hazard.h"
#include "scenario/tables/read_tables.h"
#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

void read_crr(Draft& draft, Table& road) {
    Table table = road.find_table("crr");
    for (int i = 0; i < kSurfaces; ++i) {
        const std::string surface(course::kSurfaceNames[static_cast<std::size_t>(i)]);
        draft.model.road.crr[static_cast<std::size_t>(i)] =
            take_input(draft, table, find_spec("road.crr." + surface));
    }
    table.reject_unknown_keys();
}

void read_shelter_error(Draft& draft, Table& road) {
    const Spec& spec = find_spec("road.shelter_error");
    const auto stated = road.find_value(spec);
    const double within = stated.value_or(to_si(spec.unit, spec.usual.mid));
    StatedValue factor = make_stated_point(1.0);
    if (within > 0.0) {
        factor.knowledge =
            chance::make_split_lognormal({1.0 - within, 1.0, 1.0 + within});
    }
    Input input = make_input(find_spec("road.shelter"), factor);
    input.label = "wind on the road / by its shelter";
    input.origin = stated ? Origin::kStated : Origin::kAssumption;
    input.source = stated ? "stated" : "assumption";
    draft.model.road.shelter_ratio = add_input(draft, std::move(input));
}

// "factor 1.8": two days in three have a flat rate within that factor of the middle. A
// gamma factor of mean 1, so that the rate over all days stays what it is.
void read_clumping(Draft& draft, Table& table) {
    const Spec& spec = find_spec("flats.clumping");
    const auto stated = table.find_value(spec);
    const double spread = stated.value_or(spec.usual.mid);
    StatedValue factor = make_stated_point(1.0);
    // Below this the gamma factor could not be told from 1.
    constexpr double kLeastSpread = 1.001;
    if (spread > kLeastSpread) {
        const double shape = physics::solve_clump_shape(spread);
        factor.luck = chance::make_gamma(1.0, 1.0 / std::sqrt(shape));
        factor.deviation = Deviation::kMultiply;
    }
    Input input = make_input(spec, factor);
    if (stated) {
        input.origin = Origin::kStated;
        input.source = "stated";
        input.place = table.find("clumping")->place;
    }
    draft.model.flats.day_factor = add_input(draft, std::move(input));
}

}  // namespace

void read_road(Draft& draft, Table& road) {
    read_crr(draft, road);
    read_shelter_error(draft, road);
    draft.model.road.wet_crr_ratio =
        take_input(draft, road, find_spec("road.wet_rolling"));
    draft.model.road.wet_cap_ratio =
        take_setting(draft, road, find_spec("road.wet_speed"));
}

void read_flats(Draft& draft, Table& table) {
    FlatRates& flats = draft.model.flats;
    flats.training_per_m = take_input(draft, table, find_spec("flats.training"));
    flats.race_ratio = take_input(draft, table, find_spec("flats.race_factor"));
    read_clumping(draft, table);
    flats.wet_ratio = take_input(draft, table, find_spec("flats.wet_factor"));
    flats.rear_share = take_input(draft, table, find_spec("flats.rear_share"));
    flats.pinch_share = take_input(draft, table, find_spec("flats.pinch_share"));
    flats.slow_share = take_input(draft, table, find_spec("flats.slow_share"));
    flats.rough_pinch_ratio =
        take_setting(draft, table, find_spec("flats.rough_pinch_factor"));
    flats.at_speed_m_s = take_setting(draft, table, find_spec("flats.at_speed"));
}

}  // namespace flattail::scenario

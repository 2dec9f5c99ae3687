// Days of a model made in code, with their flat points, and the checks of counts on them.
#pragma once

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/poisson.hpp>
#include <cmath>
#include <limits>
#include <memory>
#include <vector>

#include "sampling/day_plan.h"
#include "statistical_checks.h"
#include "support/model_builder.h"

namespace flattail::test {

enum class DrawnAs { kPlain, kGrouped };

/// Sixty ordinary kilometres, then thirty with this much debris.
inline std::vector<course::Segment> make_road(double debris) {
    std::vector<course::Segment> road(2);
    road[0].length_m = 60000.0;
    road[1].from_m = 60000.0;
    road[1].length_m = 30000.0;
    road[1].debris = debris;
    return road;
}

/// A certain model: so many points expected per day below height 1, cuts alone, and a
/// tube that meets points up to height `top`.
inline scenario::Model make_cut_model(double points_per_day, double road_m,
                                      double top = 1.0) {
    scenario::Model model = support::make_plain_model();
    support::fix_input(model, model.flats.training_per_m, points_per_day / road_m);
    support::fix_input(model, model.inners[1].cut_ratio, top);
    return model;
}

constexpr std::uint64_t kEndless = std::numeric_limits<std::uint64_t>::max();

/// The model must outlive what comes back; nothing moves once it is made.
struct Days {
    Days(const scenario::Model& model, const std::vector<course::Segment>& segments,
         DrawnAs drawn_as,
         base::InstructionSet instructions = base::detect_instruction_set())
        : road(segments, model.flats.rough_pinch_ratio),
          plan(model, road, {},
               {20261125, drawn_as == DrawnAs::kGrouped ? kEndless : 0, instructions}),
          block(plan.make_block()) {}
    Days(scenario::Model&&, const std::vector<course::Segment>&, DrawnAs) = delete;
    Days(const Days&) = delete;
    Days& operator=(const Days&) = delete;

    const sampling::DayBlock& draw(std::uint64_t first_day) {
        plan.fill(first_day, block);
        return block;
    }

    sampling::RoadHazard road;
    sampling::DayPlan plan;
    sampling::DayBlock block;
};

/// Points of one lane below a height.
inline int count_below(const sampling::DayBlock& block, std::size_t lane, double height) {
    int count = 0;
    for (const auto& point : block.points) {
        count += point.lane == lane && point.height < height ? 1 : 0;
    }
    return count;
}

/// Null: `hits` of `trials` with this chance each. Exact binomial limits.
inline bool has_share(int hits, int trials, double chance) {
    const boost::math::binomial law(trials, chance);
    const double below = cdf(law, hits);
    const double above = hits == 0 ? 1.0 : cdf(complement(law, hits - 1));
    return below > kFalseAlarm / 2.0 && above > kFalseAlarm / 2.0;
}

}  // namespace flattail::test

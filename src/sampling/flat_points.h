// Where things that make wheels go flat lie in wait on each day, and how much a day
// counts when days with such points are drawn more often.
#pragma once

#include <array>
#include <cstdint>

#include "sampling/day_block.h"
#include "sampling/road_hazard.h"
#include "sampling/vector_math.h"
#include "scenario/model.h"

namespace flattail::sampling {

/// Lanes of a block given to each group of days; they sum to kLanes. The plain share
/// bounds every weight by kLanes / kGroupLanes[0], about 5. Tuned on the lakeside and
/// hills scenarios (tests/bench): more lanes with points sharpen rare figures and blur
/// ordinary ones.
constexpr std::array<int, kGroups> kGroupLanes = {14, 26, 16, 5, 3};

class FlatPoints {
  public:
    /// `grouped_days`: as DayPlanOptions has it.
    FlatPoints(const scenario::Model& model, const RoadHazard& road, std::uint64_t seed,
               std::uint64_t grouped_days, const VectorMath& math);

    /// Fills points, groups and weights of a block whose values are drawn.
    ///
    /// Plain days: for each wheel and cause a Poisson number of points in each strip of
    /// height [0, 1), [1, 2), [2, 4) ..., so that opening a strip moves no point of
    /// another.
    /// Other groups: the number of points is drawn within the group, and the day weighs
    /// 1 / (share of plain + share of its group / chance of the group on this day).
    /// Source: METHOD 9.5, 9.6 (deterministic mixture; Veach & Guibas 1995, balance
    ///         heuristic)
    void fill(DayBlock& block) const;

  private:
    static constexpr int kProcesses = kWheels * kCauses;

    struct Rates {
        // Expected points per unit of height, and the height up to which they are drawn.
        double mean[kProcesses][kLanes];
        double top[kProcesses][kLanes];
    };

    bool is_grouped(const DayBlock& block) const;
    void compute_rates(const DayBlock& block, Rates& rates) const;
    void bound_cuts(const DayBlock& block, int wheel, double* top) const;
    void bound_pinches(const DayBlock& block, int wheel, double* top) const;
    void bound_gauge_pa(const DayBlock& block, const scenario::Setup& setup, int wheel,
                        double* gauge_pa) const;
    void bound_fitting(const DayBlock& block, int wheel, double* top) const;
    void fill_plain(const Rates& rates, DayBlock& block) const;
    void fill_strip(const Rates& rates, int process, int strip, DayBlock& block) const;
    void fill_grouped(const Rates& rates, DayBlock& block) const;
    void add_grouped_points(const Rates& rates, int lane, int count, double total,
                            DayBlock& block) const;
    void sort_points(DayBlock& block) const;

    const scenario::Model* model_;
    const RoadHazard* road_;
    std::uint64_t seed_;
    std::uint64_t grouped_days_;
    const VectorMath* math_;
    bool may_rain_ = false;
};

}  // namespace flattail::sampling

#include "ride/guess_fit.h"

#include <Eigen/Dense>
#include <cmath>

#include "ride/setup_lanes.h"
#include "ride/wheel_gas.h"
#include "sampling/address.h"

namespace flattail::ride {

namespace {

constexpr int kPilotBlocks = 2;  // 128 days; 64 left twice as many lanes to settle
// Days that no study reaches.
constexpr std::uint64_t kFirstPilotDay = std::uint64_t{1} << 62;
constexpr double kShakenShare = 0.1;  // of power and of entry speed
constexpr double kShakenWindMS = 2.0;
constexpr double kStrongerWind = 1.25;  // pilots meet more wind than most days
constexpr double kRidge = 1e-9;
constexpr int kTerms = 5;

using Normal = Eigen::Matrix<double, kTerms, kTerms>;
using Right = Eigen::Matrix<double, kTerms, 1>;

struct Pilots {
    LaneBlock block;
    LaneTerms terms;
    sampling::DayBlock days;
};

// Shaking needs no quality, only addresses: the same numbers on every machine.
class Shaker {
  public:
    double next() {
        const sampling::Address address{0, input_, count_++, 0};
        return 2.0 * sampling::draw_uniform(address) - 1.0;
    }

  private:
    std::uint32_t input_ = sampling::hash_input_name("ride.pilot_shake");
    std::uint64_t count_ = 0;
};

void refresh_pilots(const Kernel& kernel, const RefreshTerms& refresh,
                    const YawStretch& yaw, std::size_t mark, std::vector<Pilots>& pilots,
                    Shaker& shaker) {
    for (Pilots& p : pilots) {
        const PlaceFactors place{p.days.power_factor.data() + mark * kLanes,
                                 p.days.wind_factor.data() + mark * kLanes, yaw};
        kernel.refresh_pressure(refresh, p.terms, p.block, LaneRange{});
        kernel.refresh(refresh, place, p.terms, p.block, LaneRange{});
        LaneBlock& b = p.block;
        for (int j = 0; j < kLanes; ++j) {
            b.power[j] *= 1.0 + kShakenShare * shaker.next();
            b.wind_x[j] = kStrongerWind * b.wind_x[j] + kShakenWindMS * shaker.next();
            b.wind_y[j] = kStrongerWind * b.wind_y[j] + kShakenWindMS * shaker.next();
            b.wind_sq[j] = b.wind_x[j] * b.wind_x[j] + b.wind_y[j] * b.wind_y[j];
        }
    }
}

Right find_features(const SegmentTerms& q, const LaneBlock& b, int j) {
    const double wt = b.wind_x[j] * q.head_x + b.wind_y[j] * q.head_y;
    return (Right() << 1.0, b.speed[j], b.speed[j] * b.speed[j], b.power[j], wt)
        .finished();
}

// Normal equations of one segment; pilots leave it at the converged speed.
void ride_pilots(const Kernel& kernel, const SegmentTerms& q, std::vector<Pilots>& pilots,
                 Shaker& shaker, Normal& normal, Right& right) {
    SettleCount ignored;
    for (Pilots& p : pilots) {
        LaneBlock& b = p.block;
        for (int j = 0; j < kLanes; ++j) b.speed[j] *= 1.0 + kShakenShare * shaker.next();
        double root[kLanes];
        kernel.find_roots(q, b, root);
        for (int j = 0; j < kLanes; ++j) {
            const Right f = find_features(q, b, j) / root[j];
            normal += f * f.transpose();
            right += f;
        }
        kernel.ride_converged(&q, 1, b, ignored);
    }
}

// Scaled to a unit diagonal before solving: power is of order 1, speed squared of order
// 100.
GuessTerms solve(const Normal& normal, const Right& right) {
    const Right scale = (normal.diagonal().array() + 1e-300).sqrt().inverse().matrix();
    Normal scaled = scale.asDiagonal() * normal * scale.asDiagonal();
    scaled.diagonal().array() += kRidge;
    const Right c = scale.asDiagonal() * scaled.ldlt().solve(scale.asDiagonal() * right);
    return {c[0], c[1], c[2], c[3], c[4]};
}

std::vector<Pilots> draw_pilots(const scenario::Model& model, const Road& road,
                                const sampling::DayPlan& plan, const Kernel& kernel) {
    std::vector<Pilots> pilots(kPilotBlocks);
    const auto& setup = model.setups[static_cast<std::size_t>(model.decision.against)];
    for (std::size_t k = 0; k < pilots.size(); ++k) {
        pilots[k].days = plan.make_block();
        plan.fill(kFirstPilotDay + k * kLanes, pilots[k].days);
        set_lanes(model, road, Traits::of(setup), pilots[k].days, pilots[k].terms,
                  pilots[k].block);
        wait_for_start(model, road, kernel, pilots[k].terms);
        for (double& speed : pilots[k].block.speed) speed = 5.0;  // m/s: under way
    }
    return pilots;
}

}  // namespace

std::vector<GuessTerms> fit_guesses(const scenario::Model& model, const Road& road,
                                    const sampling::DayPlan& plan, const Kernel& kernel) {
    std::vector<Pilots> pilots = draw_pilots(model, road, plan, kernel);
    RefreshTerms refresh = road.refresh;
    refresh.forecast = &road.forecast;
    Shaker shaker;
    std::vector<GuessTerms> guesses;
    std::size_t mark = 0;
    for (int i = 0; i < road.count(); ++i) {
        if (mark < road.mark_segment.size() && road.mark_segment[mark] == i) {
            refresh_pilots(kernel, refresh, road.yaw_at(mark), mark, pilots, shaker);
            ++mark;
        }
        Normal normal = Normal::Zero();
        Right right = Right::Zero();
        ride_pilots(kernel, road.terms[static_cast<std::size_t>(i)], pilots, shaker,
                    normal, right);
        guesses.push_back(solve(normal, right));
    }
    return guesses;
}

}  // namespace flattail::ride

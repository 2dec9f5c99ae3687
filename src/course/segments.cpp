#include "course/segments.h"

#include <algorithm>
#include <cmath>

#include "base/expects.h"
#include "course/typical_ride.h"

namespace flattail::course {
namespace {

/// A cap counts where it is below this many times the typical speed, so that a stronger
/// rider with a tail wind still meets it at a cut.
constexpr double kCapMargin = 1.25;
/// Caps that change less than this over one piece are held, not braked for.
constexpr double kCapTrend = 0.02;
/// Cuts closer than this to each other become one.
constexpr double kSameCut_m = 1e-6;

enum class Regime { kFree, kBraking, kHeld, kLeaving };

Regime find_regime(const Course& course, const TypicalRide& ride, std::size_t piece) {
    const double from = course.nodes[piece].cap_m_s;
    const double to = course.nodes[piece + 1].cap_m_s;
    const double speed =
        std::sqrt(std::max(ride.speed_sq_m2_s2[piece], ride.speed_sq_m2_s2[piece + 1]));
    if (std::min(from, to) > kCapMargin * speed) {
        return Regime::kFree;
    }
    if (to < from * (1.0 - kCapTrend)) {
        return Regime::kBraking;
    }
    return to > from * (1.0 + kCapTrend) ? Regime::kLeaving : Regime::kHeld;
}

bool is_same_road(const Piece& a, const Piece& b) {
    return a.surface == b.surface && a.shelter == b.shelter && a.debris == b.debris;
}

int count_marks(double length_m, double spacing_m) {
    return std::max(1, static_cast<int>(std::lround(length_m / spacing_m)));
}

/// Places that must be cut: marks, changes of road, ends of stretches and braking zones.
std::vector<double> list_cuts(const Course& course, const TypicalRide& ride,
                              double mark_spacing_m) {
    std::vector<double> cuts = {0.0, course.length_m};
    const int marks = count_marks(course.length_m, mark_spacing_m);
    for (int m = 1; m < marks; ++m) {
        cuts.push_back(course.length_m * m / marks);
    }
    for (const Stretch& stretch : course.stretches) {
        cuts.push_back(stretch.from_m);
        cuts.push_back(stretch.to_m);
    }
    Regime before = find_regime(course, ride, 0);
    for (std::size_t i = 1; i < course.pieces.size(); ++i) {
        const Regime here = find_regime(course, ride, i);
        if (here != before || !is_same_road(course.pieces[i - 1], course.pieces[i])) {
            cuts.push_back(course.nodes[i].distance_m);
        }
        before = here;
    }
    std::sort(cuts.begin(), cuts.end());
    const auto end = std::unique(cuts.begin(), cuts.end(),
                                 [](double a, double b) { return b - a < kSameCut_m; });
    cuts.erase(end, cuts.end());
    cuts.back() = course.length_m;
    return cuts;
}

double turn_between(const Piece& a, const Piece& b) {
    return std::abs(std::atan2(a.east * b.north - a.north * b.east,
                               a.east * b.east + a.north * b.north));
}

/// How many segments each piece asks for; sums of it over a part of the road round up to
/// the number of segments there.
std::vector<double> measure_demand(const Course& course, const TypicalRide& ride,
                                   const SplitOptions& options) {
    std::vector<double> demand(course.pieces.size());
    for (std::size_t i = 0; i < demand.size(); ++i) {
        const Piece& piece = course.pieces[i];
        const Piece& before = course.pieces[i > 0 ? i - 1 : 0];
        const double e0 = ride.speed_sq_m2_s2[i];
        const double e1 = ride.speed_sq_m2_s2[i + 1];
        demand[i] = std::max(
            {piece.length_m / options.max_length_m,
             std::abs(e1 - e0) / std::min(e0, e1) / options.max_energy_ratio,
             ride.relaxation[i] / options.max_relaxation,
             std::abs(piece.sin_slope - before.sin_slope) / options.max_slope_change,
             turn_between(before, piece) / options.max_turn_rad});
    }
    return demand;
}

/// Running sums over the course, straight within a piece, read at any place.
class RunningSums {
  public:
    RunningSums(const Course& course, const std::vector<double>& demand)
        : course_(course), demand_(1, 0.0), east_m_(1, 0.0), north_m_(1, 0.0) {
        for (std::size_t i = 0; i < course.pieces.size(); ++i) {
            const Piece& piece = course.pieces[i];
            demand_.push_back(demand_.back() + demand[i]);
            east_m_.push_back(east_m_.back() + piece.east * piece.length_m);
            north_m_.push_back(north_m_.back() + piece.north * piece.length_m);
        }
    }

    struct Reading {
        double place_m;
        double demand;
        double east_m;
        double north_m;
        double elevation_m;
        double cap_m_s;
        std::size_t piece;
    };

    Reading read(double place_m) const {
        const auto after = std::upper_bound(
            course_.nodes.begin(), course_.nodes.end(), place_m,
            [](double place, const Node& node) { return place < node.distance_m; });
        const std::size_t node = static_cast<std::size_t>(after - course_.nodes.begin());
        const std::size_t i = std::clamp<std::size_t>(node, 1, course_.pieces.size()) - 1;
        const Node& from = course_.nodes[i];
        const Node& to = course_.nodes[i + 1];
        const double part = (place_m - from.distance_m) / course_.pieces[i].length_m;
        auto blend = [part](double a, double b) { return a + part * (b - a); };
        // Braking is straight in speed squared.
        const double cap_sq = blend(from.cap_m_s * from.cap_m_s, to.cap_m_s * to.cap_m_s);
        return {place_m,
                blend(demand_[i], demand_[i + 1]),
                blend(east_m_[i], east_m_[i + 1]),
                blend(north_m_[i], north_m_[i + 1]),
                blend(from.elevation_m, to.elevation_m),
                std::sqrt(cap_sq),
                i};
    }

    double find_place(double demand) const {
        const auto after = std::upper_bound(demand_.begin(), demand_.end(), demand);
        const std::size_t node = static_cast<std::size_t>(after - demand_.begin());
        const std::size_t i = std::clamp<std::size_t>(node, 1, course_.pieces.size()) - 1;
        const double part = (demand - demand_[i]) / (demand_[i + 1] - demand_[i]);
        return course_.nodes[i].distance_m + part * course_.pieces[i].length_m;
    }

  private:
    const Course& course_;
    std::vector<double> demand_;
    std::vector<double> east_m_;
    std::vector<double> north_m_;
};

Segment make_segment(const Course& course, const RunningSums::Reading& from,
                     const RunningSums::Reading& to) {
    const Piece& piece = course.pieces[from.piece];
    Segment segment;
    segment.from_m = from.place_m;
    segment.length_m = to.place_m - from.place_m;
    segment.sin_slope = (to.elevation_m - from.elevation_m) / segment.length_m;
    segment.cos_slope = std::sqrt(1.0 - segment.sin_slope * segment.sin_slope);
    segment.head_x = piece.shelter * (to.east_m - from.east_m) / segment.length_m;
    segment.head_y = piece.shelter * (to.north_m - from.north_m) / segment.length_m;
    segment.shelter_sq = piece.shelter * piece.shelter;
    segment.altitude_m = 0.5 * (from.elevation_m + to.elevation_m);
    segment.cap_m_s = to.cap_m_s;
    segment.debris = piece.debris;
    segment.surface = piece.surface;
    return segment;
}

}  // namespace

std::vector<Segment> split_course(const Course& course, const TypicalRider& rider,
                                  const SplitOptions& options) {
    FLATTAIL_EXPECTS(!course.pieces.empty());
    const TypicalRide ride = ride_typically(course, rider);
    const RunningSums sums(course, measure_demand(course, ride, options));
    const std::vector<double> cuts = list_cuts(course, ride, options.mark_spacing_m);
    std::vector<Segment> segments;
    for (std::size_t c = 1; c < cuts.size(); ++c) {
        RunningSums::Reading from = sums.read(cuts[c - 1]);
        const RunningSums::Reading last = sums.read(cuts[c]);
        const double wanted = last.demand - from.demand;
        const int count = std::max(1, static_cast<int>(std::ceil(wanted - 1e-9)));
        const double first = from.demand;
        for (int k = 1; k <= count; ++k) {
            const RunningSums::Reading to =
                k == count ? last
                           : sums.read(sums.find_place(first + wanted * k / count));
            segments.push_back(make_segment(course, from, to));
            from = to;
        }
    }
    return segments;
}

Marks find_marks(const std::vector<Segment>& segments, double mark_spacing_m) {
    FLATTAIL_EXPECTS(!segments.empty());
    const double length_m = segments.back().from_m + segments.back().length_m;
    const int count = count_marks(length_m, mark_spacing_m);
    Marks marks;
    std::size_t segment = 0;
    for (int m = 0; m < count; ++m) {
        const double place_m = length_m * m / count;
        while (segments[segment].from_m < place_m - kSameCut_m) {
            ++segment;
        }
        marks.first_segment.push_back(static_cast<int>(segment));
    }
    return marks;
}

}  // namespace flattail::course

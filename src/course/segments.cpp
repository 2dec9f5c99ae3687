#include "course/segments.h"

#include <algorithm>
#include <cmath>

#include "base/expects.h"
#include "course/height_fit.h"
#include "course/typical_ride.h"

namespace flattail::course {
namespace {

constexpr double kGravity_m_s2 = 9.80665;  // ISO 80000-3, standard value
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

/// Over a length L a road of vertical curvature c lies c L^2 / 12 off its chord on
/// average, which moves speed squared by 2 g times that. Gives L / that length for which
/// the share of speed squared would be 2; it grows with the root of the share.
double measure_hidden_bend(const Piece& before, const Piece& piece, double speed_sq) {
    const double curvature_per_m = 2.0 * std::abs(piece.sin_slope - before.sin_slope) /
                                   (piece.length_m + before.length_m);
    return piece.length_m *
           std::sqrt(kGravity_m_s2 * curvature_per_m / (12.0 * speed_sq));
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
        demand[i] =
            std::max({piece.length_m / options.max_length_m,
                      std::abs(e1 - e0) / std::min(e0, e1) / options.max_energy_ratio,
                      ride.relaxation[i] / options.max_relaxation,
                      measure_hidden_bend(before, piece, std::min(e0, e1)) /
                          std::sqrt(options.max_hidden_height),
                      turn_between(before, piece) / options.max_turn_rad});
    }
    return demand;
}

/// Running sums over the course, straight within a piece, read at any place.
class RunningSums {
  public:
    RunningSums(const Course& course, const TypicalRide& ride,
                const std::vector<double>& demand)
        : course_(course),
          demand_(1, 0.0),
          relaxation_(1, 0.0),
          east_m_(1, 0.0),
          north_m_(1, 0.0) {
        for (std::size_t i = 0; i < course.pieces.size(); ++i) {
            const Piece& piece = course.pieces[i];
            demand_.push_back(demand_.back() + demand[i]);
            relaxation_.push_back(relaxation_.back() + ride.relaxation[i]);
            east_m_.push_back(east_m_.back() + piece.east * piece.length_m);
            north_m_.push_back(north_m_.back() + piece.north * piece.length_m);
        }
    }

    struct Reading {
        double place_m;
        double demand;
        double relaxation;
        double height_m;
        double east_m;
        double north_m;
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
                blend(relaxation_[i], relaxation_[i + 1]),
                blend(from.elevation_m, to.elevation_m),
                blend(east_m_[i], east_m_[i + 1]),
                blend(north_m_[i], north_m_[i + 1]),
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
    std::vector<double> relaxation_;
    std::vector<double> east_m_;
    std::vector<double> north_m_;
};

Segment make_segment(const Course& course, const RunningSums::Reading& from,
                     const RunningSums::Reading& to) {
    const Piece& piece = course.pieces[from.piece];
    Segment segment;
    segment.from_m = from.place_m;
    segment.length_m = to.place_m - from.place_m;
    segment.head_x = piece.shelter * (to.east_m - from.east_m) / segment.length_m;
    segment.head_y = piece.shelter * (to.north_m - from.north_m) / segment.length_m;
    segment.shelter_sq = piece.shelter * piece.shelter;
    segment.cap_m_s = to.cap_m_s;
    segment.debris = piece.debris;
    segment.surface = piece.surface;
    return segment;
}

void set_slope(Segment& segment, double from_height_m, double to_height_m) {
    segment.sin_slope =
        std::clamp((to_height_m - from_height_m) / segment.length_m, -0.99, 0.99);
    segment.cos_slope = std::sqrt(1.0 - segment.sin_slope * segment.sin_slope);
    segment.altitude_m = 0.5 * (from_height_m + to_height_m);
}

/// The cuts, and between them as many more places as are asked for, evenly by demand.
std::vector<double> list_borders(const RunningSums& sums,
                                 const std::vector<double>& cuts) {
    std::vector<double> borders_m = {cuts.front()};
    for (std::size_t c = 1; c < cuts.size(); ++c) {
        const double first = sums.read(cuts[c - 1]).demand;
        const double wanted = sums.read(cuts[c]).demand - first;
        const int count = std::max(1, static_cast<int>(std::ceil(wanted - 1e-9)));
        for (int k = 1; k < count; ++k) {
            borders_m.push_back(sums.find_place(first + wanted * k / count));
        }
        borders_m.push_back(cuts[c]);
    }
    return borders_m;
}

/// Heights of the borders: those of the best broken line where speed keeps its past,
/// nearer to the road's own where it forgets it within a segment (there the slope alone
/// counts, and the best line makes it too steep). The weight 1 / (1 + z/2) is measured:
/// it brings the time on rolling roads within .005 %, either line alone within .05 %.
std::vector<double> choose_heights(const Course& course,
                                   const std::vector<double>& borders_m,
                                   const std::vector<RunningSums::Reading>& borders) {
    std::vector<double> heights_m = fit_heights(course, borders_m);
    for (std::size_t k = 1; k + 1 < borders.size(); ++k) {
        const double z = 0.5 * (borders[k + 1].relaxation - borders[k - 1].relaxation);
        const double own_m = borders[k].height_m;
        heights_m[k] = own_m + (heights_m[k] - own_m) / (1.0 + 0.5 * z);
    }
    return heights_m;
}

}  // namespace

std::vector<Segment> split_course(const Course& course, const TypicalRider& rider,
                                  const SplitOptions& options) {
    FLATTAIL_EXPECTS(!course.pieces.empty());
    const TypicalRide ride = ride_typically(course, rider);
    const RunningSums sums(course, ride, measure_demand(course, ride, options));
    const std::vector<double> borders_m =
        list_borders(sums, list_cuts(course, ride, options.mark_spacing_m));
    std::vector<RunningSums::Reading> borders;
    for (const double place_m : borders_m) {
        borders.push_back(sums.read(place_m));
    }
    const std::vector<double> heights_m = choose_heights(course, borders_m, borders);
    std::vector<Segment> segments;
    for (std::size_t k = 0; k + 1 < borders.size(); ++k) {
        segments.push_back(make_segment(course, borders[k], borders[k + 1]));
        set_slope(segments.back(), heights_m[k], heights_m[k + 1]);
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

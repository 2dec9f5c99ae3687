#include "course/stretches.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace flattail::course {
namespace {

/// Stretches are read off maps and signs; an end this far past the finish is a slip.
constexpr double kSlipShare = 0.01;
/// Shorter stretches vanish between two nodes.
constexpr double kShortest_m = 1.0;
constexpr double kMostShelter = 1.5;
constexpr double kMostDebris = 1000.0;

std::string call_stretch(const Stretch& stretch) {
    return stretch.name.empty()
               ? fmt::format("the stretch from km {:.2f}", stretch.from_m / 1000.0)
               : fmt::format("the stretch \"{}\"", stretch.name);
}

void check_factors(const Stretch& stretch, const Place& place,
                   base::ProblemList& problems) {
    auto within = [](double value, double low, double high) {
        return value >= low && value <= high;
    };
    if (stretch.shelter && !within(*stretch.shelter, 0.0, kMostShelter)) {
        problems.add_error(place,
                           fmt::format("shelter {:g} of {} is out of range",
                                       *stretch.shelter, call_stretch(stretch)),
                           "rider wind / wind at 10 m: 0.3 wood, 0.65 open, at most 1.5");
    }
    if (stretch.debris && !within(*stretch.debris, 0.0, kMostDebris)) {
        problems.add_error(place,
                           fmt::format("debris {:g} of {} is out of range",
                                       *stretch.debris, call_stretch(stretch)),
                           "a factor on the rate of cuts: 1 ordinary, 3 three times");
    }
    if (stretch.speed_cap_m_s && !within(*stretch.speed_cap_m_s, 1.0, kUncapped_m_s)) {
        problems.add_error(place,
                           fmt::format("the speed limit of {} is {:g} m/s",
                                       call_stretch(stretch), *stretch.speed_cap_m_s),
                           "at least 1 m/s, 3.6 km/h");
    }
}

}  // namespace

std::vector<Stretch> check_stretches(const std::vector<Stretch>& stretches,
                                     const std::string& file, double length_m,
                                     base::ProblemList& problems) {
    std::vector<Stretch> checked;
    for (Stretch stretch : stretches) {
        const Place place = {file, stretch.line, 0};
        check_factors(stretch, place, problems);
        if (stretch.to_m > length_m && stretch.to_m <= length_m * (1.0 + kSlipShare)) {
            problems.add_warning(
                place,
                fmt::format("{} ends {:.0f} m after the finish", call_stretch(stretch),
                            stretch.to_m - length_m),
                "it is taken to end there; state official_distance if the "
                "course is longer");
            stretch.to_m = length_m;
        }
        const bool ordered = stretch.from_m >= 0.0 &&
                             stretch.to_m >= stretch.from_m + kShortest_m &&
                             stretch.to_m <= length_m;
        if (!ordered) {
            problems.add_error(
                place,
                fmt::format(
                    "{} runs from km {:.3f} to km {:.3f}, not within the course of "
                    "{:.3f} km",
                    call_stretch(stretch), stretch.from_m / 1000.0, stretch.to_m / 1000.0,
                    length_m / 1000.0),
                "from before to, both between the start and the finish");
            continue;
        }
        checked.push_back(stretch);
    }
    return checked;
}

std::vector<double> list_borders(const std::vector<Stretch>& stretches, double length_m) {
    std::vector<double> ends = {0.0, length_m};
    for (const Stretch& stretch : stretches) {
        ends.push_back(stretch.from_m);
        ends.push_back(stretch.to_m);
    }
    std::sort(ends.begin(), ends.end());
    ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
    return ends;
}

void lay_stretches(Course& course, const OrdinaryRoad& road) {
    for (std::size_t i = 0; i < course.pieces.size(); ++i) {
        Piece& piece = course.pieces[i];
        piece.surface = road.surface;
        piece.shelter = road.shelter;
        piece.debris = road.debris;
        const double middle_m = course.nodes[i].distance_m + 0.5 * piece.length_m;
        for (const Stretch& stretch : course.stretches) {
            if (middle_m > stretch.from_m && middle_m < stretch.to_m) {
                piece.surface = stretch.surface.value_or(piece.surface);
                piece.shelter = stretch.shelter.value_or(piece.shelter);
                piece.debris = stretch.debris.value_or(piece.debris);
            }
        }
    }
}

}  // namespace flattail::course

#include "publish/pictures/profile.h"

#include <algorithm>
#include <cmath>

#include "chance/distribution.h"
#include "publish/tables/csv_text.h"

namespace flattail::publish {

namespace {

constexpr int kRows = 180;
// Debris from which a stretch is worth naming: twice the cuts of an ordinary road.
constexpr double kMuchDebris = 2.0;
// Road before a stretch on which speed for it is gathered (assumption).
constexpr double kRunIn_m = 500.0;
// Impacts on cobbles / on a coarse road (METHOD 6.2).
constexpr double kCobblesOverCoarse = 2.0;

struct Wind {
    double from_east_m_s = 0.0, from_north_m_s = 0.0;
};

Wind split(const scenario::ForecastRow& row) {
    return {row.wind_m_s * std::sin(row.from_rad), row.wind_m_s * std::cos(row.from_rad)};
}

// Between two rows of the forecast the wind changes in a straight line.
Wind find_wind(const scenario::Weather& weather, double clock_s) {
    const auto& rows = weather.rows;
    const auto after = std::find_if(rows.begin(), rows.end(), [clock_s](const auto& row) {
        return row.clock_s > clock_s;
    });
    if (after == rows.begin()) return split(rows.front());
    if (after == rows.end()) return split(rows.back());
    const auto& before = *(after - 1);
    const double part = (clock_s - before.clock_s) / (after->clock_s - before.clock_s);
    const Wind a = split(before), b = split(*after);
    return {a.from_east_m_s + part * (b.from_east_m_s - a.from_east_m_s),
            a.from_north_m_s + part * (b.from_north_m_s - a.from_north_m_s)};
}

double find_flat_ratio(const course::Piece& piece, double rough_pinch_ratio,
                       double pinch_share) {
    double impacts = 1.0;
    if (piece.surface == course::Surface::kCoarse) impacts = rough_pinch_ratio;
    if (piece.surface == course::Surface::kCobbles)
        impacts = kCobblesOverCoarse * rough_pinch_ratio;
    return (1.0 - pinch_share) * piece.debris + pinch_share * impacts;
}

double find_elevation(const course::Course& course, double distance_m) {
    const auto& nodes = course.nodes;
    const auto after = std::find_if(nodes.begin(), nodes.end(), [&](const auto& node) {
        return node.distance_m > distance_m;
    });
    if (after == nodes.begin()) return nodes.front().elevation_m;
    if (after == nodes.end()) return nodes.back().elevation_m;
    const course::Node& from = *(after - 1);
    const double part =
        (distance_m - from.distance_m) / (after->distance_m - from.distance_m);
    return from.elevation_m + part * (after->elevation_m - from.elevation_m);
}

double find_pinch_share(const scenario::Model& model) {
    return chance::quantile(model.input(model.flats.pinch_share).knowledge, 0.5);
}

// From the top of the run-in to the lowest point: how fast one comes onto a stretch.
double find_drop(const course::Course& course, const course::Stretch& stretch) {
    double top_m = find_elevation(course, stretch.from_m), drop_m = 0.0;
    for (const course::Node& node : course.nodes) {
        if (node.distance_m > stretch.to_m) break;
        if (node.distance_m < stretch.from_m - kRunIn_m) continue;
        top_m = std::max(top_m, node.elevation_m);
        if (node.distance_m < stretch.from_m) continue;
        drop_m = std::max(drop_m, top_m - node.elevation_m);
    }
    return drop_m;
}

bool is_rough(const course::Stretch& stretch) {
    const auto surface = stretch.surface.value_or(course::Surface::kOrdinary);
    return surface == course::Surface::kCoarse || surface == course::Surface::kCobbles ||
           stretch.debris.value_or(1.0) >= kMuchDebris;
}

}  // namespace

std::vector<ProfileRow> make_profile(const scenario::Model& model, double typical_s) {
    const course::Course& course = *model.course;
    const double pinch_share = find_pinch_share(model);
    const double lasts_s = std::isfinite(typical_s) ? typical_s : 0.0;
    std::vector<ProfileRow> rows(kRows + 1, ProfileRow{0.0, 0.0, 0.0, 0.0});
    std::vector<double> lengths_m(kRows + 1, 0.0);
    double from_m = 0.0;
    for (const course::Piece& piece : course.pieces) {
        const double share = (from_m + 0.5 * piece.length_m) / course.length_m;
        from_m += piece.length_m;
        const auto i =
            static_cast<std::size_t>(std::clamp(share * kRows, 0.0, kRows - 1.0));
        const Wind wind =
            find_wind(model.weather, model.race.start_clock_s + share * lasts_s);
        rows[i].head_wind_m_s +=
            piece.length_m * piece.shelter *
            (wind.from_east_m_s * piece.east + wind.from_north_m_s * piece.north);
        rows[i].flat_ratio +=
            piece.length_m *
            find_flat_ratio(piece, model.flats.rough_pinch_ratio, pinch_share);
        lengths_m[i] += piece.length_m;
    }
    for (std::size_t i = 0; i <= kRows; ++i) {
        const double place_m = course.length_m * static_cast<double>(i) / kRows;
        rows[i].km = place_m / 1000.0;
        rows[i].elevation_m = find_elevation(course, place_m);
        if (lengths_m[i] > 0.0) {
            rows[i].head_wind_m_s /= lengths_m[i];
            rows[i].flat_ratio /= lengths_m[i];
        } else if (i > 0) {
            rows[i].head_wind_m_s = rows[i - 1].head_wind_m_s;
            rows[i].flat_ratio = rows[i - 1].flat_ratio;
        }
    }
    return rows;
}

std::vector<RoughStretch> list_rough_stretches(const course::Course& course) {
    std::vector<RoughStretch> rough;
    for (const course::Stretch& stretch : course.stretches) {
        if (!is_rough(stretch)) continue;
        rough.push_back({stretch.from_m / 1000.0, stretch.to_m / 1000.0, stretch.name,
                         stretch.speed_cap_m_s.has_value(), find_drop(course, stretch)});
    }
    return rough;
}

std::string write_profile_csv(const std::vector<ProfileRow>& rows) {
    CsvText csv({"km", "elevation_m", "head_wind_km_h", "flat_risk_ratio"});
    for (const ProfileRow& row : rows) {
        csv.add_row({csv_number(row.km), csv_number(row.elevation_m),
                     csv_number(3.6 * row.head_wind_m_s), csv_number(row.flat_ratio)});
    }
    return csv.text();
}

}  // namespace flattail::publish

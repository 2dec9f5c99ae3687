#include "publish/pictures/course_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "publish/pictures/page_sizes.h"
#include "publish/pictures/profile.h"
#include "publish/pictures/script.h"
#include "publish/pictures/ticks.h"

namespace flattail::publish {

namespace {

void set_heights(ScriptSettings& s, const std::vector<ProfileRow>& rows) {
    double low_m = rows.front().elevation_m, high_m = low_m;
    for (const ProfileRow& row : rows) {
        low_m = std::min(low_m, row.elevation_m);
        high_m = std::max(high_m, row.elevation_m);
    }
    // A flat course is drawn flat.
    const double range_m = std::max(high_m - low_m, 40.0);
    s.set("HEIGHT_LOW", low_m - 0.08 * range_m);
    s.set("HEIGHT_HIGH", low_m + 1.08 * range_m);
    set_round_ticks(s, "HEIGHT_TICKS", low_m - 0.05 * range_m, low_m + 1.05 * range_m, 5);
}

void set_wind(ScriptSettings& s, const std::vector<ProfileRow>& rows) {
    double most = 5.0;
    for (const ProfileRow& row : rows) {
        most = std::max(most, std::abs(3.6 * row.head_wind_m_s));
    }
    const double tick = std::max(std::floor(most / 5.0) * 5.0, 1.0);
    s.set("WIND_MOST", 1.15 * most);
    s.set_ticks("WIND_TICKS",
                {fmt::format("-{:g}", tick), "0", fmt::format("+{:g}", tick)},
                {-tick, 0.0, tick});
}

void set_risk(ScriptSettings& s, const std::vector<ProfileRow>& rows) {
    double most = 2.0;
    for (const ProfileRow& row : rows) most = std::max(most, row.flat_ratio);
    s.set("FLAT_MOST", 1.12 * most);
    const double top = std::floor(most);
    s.set_ticks("FLAT_TICKS", {"0", "1x", fmt::format("{:g}x", top)}, {0.0, 1.0, top});
}

}  // namespace

void add_course(const Findings& findings, const scenario::Model& model, PictureSet& set) {
    const double typical_s =
        findings.setups[static_cast<std::size_t>(findings.against)].typical_s;
    const std::vector<ProfileRow> rows = make_profile(model, typical_s);
    const std::string title =
        name_race(findings) + ": height, wind along the road and flat risk";
    ScriptSettings s(title);
    set_sizes(s);
    std::vector<double> from, to;
    for (const RoughStretch& stretch : list_rough_stretches(*model.course)) {
        from.push_back(stretch.from_km);
        to.push_back(stretch.to_km);
    }
    s.set("ROUGH", static_cast<double>(from.size()));
    s.set("ROUGH_FROM", from);
    s.set("ROUGH_TO", to);
    const double length_km = model.course->length_m / 1000.0;
    s.set("LENGTH_KM", length_km);
    set_round_ticks(s, "WIDE_KM_TICKS", 0.0, length_km, 11);
    set_round_ticks(s, "PHONE_KM_TICKS", 0.0, length_km, 7);
    s.set("HEIGHT_TEXT", from.empty() ? "Height (m)" : "Height (m); shaded: rough road");
    s.set("WIND_TEXT", "Wind along the road (km/h), + against you");
    s.set("FLAT_TEXT", "Flat risk per km (1x: ordinary road)");
    set_heights(s, rows);
    set_wind(s, rows);
    set_risk(s, rows);
    set.tables.push_back({"profile.csv", write_profile_csv(rows)});
    set.pictures.push_back({"course", title, write_script(s, "course.gp")});
}

}  // namespace flattail::publish

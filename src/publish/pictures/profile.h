// The road from start to finish: height, wind along it, and where flats lie.
#pragma once

#include <string>
#include <vector>

#include "scenario/model.h"

namespace flattail::publish {

struct ProfileRow {
    double km = 0.0;  // where the row begins
    double elevation_m = 0.0;
    double head_wind_m_s = 0.0;  // forecast, at rider's height; negative from behind
    double flat_ratio = 1.0;     // flats per km / flats per km of ordinary road
};

/// A stretch that is coarse, cobbled or has twice the debris or more.
struct RoughStretch {
    double from_km = 0.0;
    double to_km = 0.0;
    std::string name;
    bool is_capped = false;  // a speed is stated for it
    double drop_m = 0.0;     // height lost on it and on the run-in
};

/// Rows at even steps. `typical_s` places the forecast's hours along the road; infinite
/// counts as nothing known: the wind of the start.
std::vector<ProfileRow> make_profile(const scenario::Model& model, double typical_s);

std::vector<RoughStretch> list_rough_stretches(const course::Course& course);

std::string write_profile_csv(const std::vector<ProfileRow>& rows);

}  // namespace flattail::publish

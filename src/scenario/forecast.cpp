#include "scenario/forecast.h"

#include <algorithm>
#include <cmath>

namespace flattail::scenario {

ForecastRow read_forecast(const Weather& weather, double clock_s) {
    const auto& rows = weather.rows;
    const auto later =
        std::find_if(rows.begin(), rows.end(),
                     [&](const ForecastRow& row) { return row.clock_s > clock_s; });
    if (later == rows.begin()) return rows.front();
    if (later == rows.end()) return rows.back();
    const ForecastRow& a = *(later - 1);
    const ForecastRow& b = *later;
    const double t = (clock_s - a.clock_s) / (b.clock_s - a.clock_s);
    const auto mix = [t](double from, double to) { return from + t * (to - from); };
    const double east =
        mix(a.wind_m_s * std::sin(a.from_rad), b.wind_m_s * std::sin(b.from_rad));
    const double north =
        mix(a.wind_m_s * std::cos(a.from_rad), b.wind_m_s * std::cos(b.from_rad));
    ForecastRow row;
    row.clock_s = clock_s;
    row.temperature_k = mix(a.temperature_k, b.temperature_k);
    row.wind_m_s = std::hypot(east, north);
    row.from_rad = std::atan2(east, north);
    row.rain_chance = mix(a.rain_chance, b.rain_chance);
    return row;
}

}  // namespace flattail::scenario

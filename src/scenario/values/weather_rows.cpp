// What is used of the weather when nobody states it.
#include "scenario/values/default_rows.h"

namespace flattail::scenario {

namespace {

using enum Scale;
using enum Layer;
using enum input::Dimension;

constexpr DefaultRow kRows[] = {
    {"weather.temperature", "temperature", kTemperature, kCelsius, kSigned, kLuck, -20,
     50, "write the forecast, like \"16 C\"", certainly(15)},
    {"weather.temperature_error", "temperature off the forecast, 9 in 10 within",
     kTemperatureDifference, kKelvinStep, kSigned, kLuck, 0, 15,
     "write a difference like \"2 C\"", certainly(2)},
    {"weather.wind", "wind at 10 m height", kSpeed, kKilometrePerHour, kPositive, kLuck,
     0, 100, "write the forecast mean wind, like \"13 km/h\"", certainly(10)},
    {"weather.wind_error", "wind off the forecast, 9 in 10 within", kRatio, kPercent,
     kChance, kLuck, 0, 90, "write a share like \"35 %\"", certainly(35)},
    {"weather.direction_error", "direction off the forecast, 9 in 10 within", kAngle,
     kDegree, kSigned, kLuck, 0, 180, "write an angle like \"25 deg\"", certainly(25)},
    {"weather.gust", "gust / mean wind", kNumber, kNoUnit, kPositive, kKnowledge, 1, 5,
     "write a gust speed like \"30 km/h\" or a factor like 1.5", certainly(1.5)},
    {"weather.gust_length", "reach of one gust along the road", kLength, kMetre,
     kPositive, kKnowledge, 50, 5000, "write a length like \"500 m\"", certainly(500)},
    {"weather.pressure", "air pressure at the start", kPressure, kHectopascal, kPositive,
     kKnowledge, 500, 1100,
     "write the pressure at the place itself, not reduced to the sea: \"1005 hPa\"",
     certainly(1013.25, Origin::kPublished, "ISO 2533 at the height of the start")},
    {"weather.humidity", "relative humidity", kProbability, kPercent, kChance, kKnowledge,
     0, 100, "write a share like \"60 %\"", certainly(60)},
    {"weather.rain", "chance of a wet road", kProbability, kPercent, kChance, kKnowledge,
     0, 100, "write a chance like \"20 %\"", certainly(10)},
};

}  // namespace

std::span<const DefaultRow> weather_rows() { return kRows; }

}  // namespace flattail::scenario

// What the forecast says at a time.
#pragma once

#include "scenario/model.h"

namespace flattail::scenario {

/// The forecast at a local clock: straight lines between rows, the wind as a vector, and
/// the first and last row beyond them.
ForecastRow read_forecast(const Weather& weather, double clock_s);

}  // namespace flattail::scenario

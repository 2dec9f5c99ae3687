// Ticks of picture axes as settings of a script.
#pragma once

#include <string>

#include "flattail/findings.h"
#include "publish/pictures/script.h"

namespace flattail::publish {

/// PREFIXWIDE_TICKS and PREFIXPHONE_TICKS: finish times at round clock steps.
void set_time_ticks(ScriptSettings& s, const std::string& prefix, double low_s,
                    double high_s, int wide_ticks, int phone_ticks);

/// At most so many round differences, "-1:30".
void set_net_ticks(ScriptSettings& s, const std::string& name, const Interval& axis_s,
                   int most_ticks);

/// At most so many round numbers, 1, 2 or 5 times a power of ten apart.
void set_round_ticks(ScriptSettings& s, const std::string& name, double low, double high,
                     int most);

/// The hours of the day at round steps, "06:30", whatever day it is.
void set_clock_ticks(ScriptSettings& s, const std::string& name, double from_s,
                     double to_s, int most);

}  // namespace flattail::publish

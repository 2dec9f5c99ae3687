// A scenario with one thing moved: what break-even questions ride.
#pragma once

#include "flattail/why.h"
#include "scenario/model.h"

namespace flattail::study {

/// The model with the question's value moved to `x`. Rates: x times the setups' own rate
/// of cuts and fitting faults. Rolling: x watts more than now, a pair at 45 km/h and
/// 85 kg. The rest: the value itself, in minutes, watts or psi.
scenario::Model change_model(const scenario::Model& model, BreakEvenQuestion question,
                             double x);

/// The value now, in the same terms; the scan of rates and rolling gains starts from 1
/// and 0.
double find_value_now(const scenario::Model& model, BreakEvenQuestion question);

/// Why the question makes no sense for this scenario; empty when it does.
std::string find_reason_not_to_ask(const scenario::Model& model,
                                   BreakEvenQuestion question);

/// Thirty-three values over the range of reason, by rising value.
std::vector<double> list_scan_values(const scenario::Model& model,
                                     BreakEvenQuestion question);

/// What the setup rolls better than the one compared with on average over what is not
/// known, at the same pressure, W a pair at 45 km/h and 85 kg.
double find_rolling_gain_w(const scenario::Model& model, int setup);

/// Every tube ridden 50 km more before the race.
scenario::Model ride_tubes_in(const scenario::Model& model);

}  // namespace flattail::study

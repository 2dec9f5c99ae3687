// Every ride of a study, for those who want to look at single days.
#pragma once

#include "flattail/findings.h"
#include "outcome/outcomes.h"

namespace flattail::study {

DayTable list_days(const outcome::Outcomes& outcomes);

}  // namespace flattail::study

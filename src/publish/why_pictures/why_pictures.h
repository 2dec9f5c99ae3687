// Pictures of what `why` found.
#pragma once

#include <string>

#include "flattail/why.h"
#include "publish/pictures/pictures.h"

namespace flattail::publish {

/// Bars: the difference at both ends of what each unknown fact could be, largest first.
/// Nothing where there is no setup to speak of.
void add_moves(const WhyFindings& why, PictureSet& set);

/// The difference over each value that could turn it, the flat rate first.
void add_break_even(const WhyFindings& why, PictureSet& set);

/// Setups by their typical and their bad days.
void add_trade_off(const WhyFindings& why, PictureSet& set);

/// "Latex against Butyl" behind the race and a colon and some words.
std::string write_why_title(const WhyFindings& why, const std::string& words);

}  // namespace flattail::publish

// How wide text is in a picture, before anything has drawn it.
#pragma once

#include <string>
#include <vector>

namespace flattail::publish {

/// Width of a line in a sans-serif face at `size_px`, rather too wide than too narrow.
/// Source: advance widths of Inter Semi-Bold, rounded up by kinds of letters
double estimate_width_px(const std::string& text, double size_px);

/// Names that fit and still differ where they did.
std::vector<std::string> fit_names(const std::vector<std::string>& names, double size_px,
                                   double width_px);

/// The text, or its beginning and an ellipsis, no wider than that.
std::string fit_text(const std::string& text, double size_px, double width_px);

}  // namespace flattail::publish

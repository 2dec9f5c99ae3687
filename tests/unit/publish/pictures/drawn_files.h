// The SVG files of a run of pictures, and what must hold for each of them.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "flattail/pictures.h"

namespace flattail::test {

using Svgs = std::vector<std::pair<std::string, std::string>>;  // file name, text

/// Up to eight names that are long, quoted, right to left, wide or full of signs.
std::vector<std::string> list_hard_names(std::size_t count);

/// Every SVG that was written, by file name. Fails when something could not be drawn.
Svgs read_svgs(const Drawn& drawn, const std::string& directory);

/// As many as that, well-formed, of their page's width, no text clipped or on another.
void check_svgs(const Svgs& svgs, std::size_t count);

/// Whether a picture holds these words in one text.
bool shows(const Svgs& svgs, const std::string& file, const std::string& words);

}  // namespace flattail::test

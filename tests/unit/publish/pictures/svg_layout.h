// Where the words of a picture stand, read back from its SVG.
#pragma once

#include <string>
#include <vector>

namespace flattail::test {

struct PlacedText {
    std::string text;
    double left = 0.0, right = 0.0, top = 0.0, bottom = 0.0;  // px
};

struct SvgPage {
    bool is_valid = false;  // well-formed XML with a size
    double width = 0.0, height = 0.0;
    std::string title;
    std::vector<PlacedText> texts;
};

SvgPage read_svg(const std::string& svg);

/// One line for each text that leaves the page and each pair that overlaps.
std::vector<std::string> find_collisions(const SvgPage& page);

}  // namespace flattail::test

// Pictures as data: tables, scripts, and the drawn files.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/pictures.h"
#include "publish/tables/write_files.h"
#include "scenario/model.h"

namespace flattail::publish {

struct Picture {
    std::string name;   // "dots"
    std::string title;  // for readers that show titles
    std::string script;
};

struct PictureSet {
    std::vector<NamedText> tables;
    std::vector<Picture> pictures;
};

/// Pictures of all setups and of the course.
PictureSet make_pictures(const Findings& findings, const scenario::Model& model);

/// Adds the dots of some setups, in that order, under a name of their own.
/// Shapes: shown[row] = index of a setup
void add_dots(const Findings& findings, const std::vector<int>& shown, PictureSet& set);

enum class PageKind { kWide, kPhone };
enum class Theme { kLight, kDark };

/// One way to draw a picture, and the file it goes to.
struct Rendering {
    const Picture* picture = nullptr;
    PageKind page = PageKind::kWide;
    Theme theme = Theme::kLight;
};

/// The SVG of each rendering, in order.
/// Errors: OutputFailed when gnuplot is missing or fails
std::vector<std::string> draw(const PictureSet& set,
                              const std::vector<Rendering>& renderings,
                              const std::string& directory);

/// Draws every picture for a wide page and a phone, and writes drawings, scripts and
/// tables together; without gnuplot all but the drawings.
Drawn write_drawn(const PictureSet& set, const std::string& directory);

}  // namespace flattail::publish

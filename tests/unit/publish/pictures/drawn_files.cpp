#include "unit/publish/pictures/drawn_files.h"

#include <fstream>
#include <iterator>

#include "support/catch.h"
#include "unit/publish/pictures/svg_layout.h"

namespace flattail::test {

std::vector<std::string> list_hard_names(std::size_t count) {
    const std::vector<std::string> names{
        "Butyl (on now)",
        "A long name, with every part of it told, " + std::string(260, 'x'),
        "<b>O'Neil & \"Co\"</b>",
        "\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD7\xA2\xD7\x95\xD7\x9C\xD7\x9D",
        "\xF0\x9F\x9A\xB4 tyre \xF0\x9F\x9B\x9E",
        std::string(300, 'W'),
        "\xE6\x97\xA5\xE6\x9C\xAC\xE8\xAA\x9E",
        "at @ ^_{x} \\n % tab"};
    return {names.begin(), names.begin() + static_cast<std::ptrdiff_t>(count)};
}

Svgs read_svgs(const Drawn& drawn, const std::string& directory) {
    for (const std::string& problem : drawn.problems) FAIL(problem);
    Svgs svgs;
    for (const std::string& file : drawn.files) {
        if (file.find(".svg") == std::string::npos) continue;
        std::ifstream stream(directory + "/" + file, std::ios::binary);
        svgs.emplace_back(file, std::string(std::istreambuf_iterator<char>(stream), {}));
    }
    return svgs;
}

void check_svgs(const Svgs& svgs, std::size_t count) {
    CHECK(svgs.size() == count);
    for (const auto& [file, svg] : svgs) {
        INFO(file);
        const SvgPage page = read_svg(svg);
        REQUIRE(page.is_valid);
        CHECK(page.width == (file.find("-phone") == std::string::npos ? 720 : 380));
        CHECK(page.title.find("Three Herons Middle") == 0);
        CHECK(page.texts.size() > 3);
        const std::vector<std::string> collisions = find_collisions(page);
        for (const std::string& collision : collisions) FAIL_CHECK(collision);
        CHECK(svg.find("nan") == std::string::npos);
    }
}

bool shows(const Svgs& svgs, const std::string& file, const std::string& words) {
    for (const auto& [name, svg] : svgs) {
        if (name != file) continue;
        for (const PlacedText& text : read_svg(svg).texts) {
            if (text.text.find(words) != std::string::npos) return true;
        }
    }
    return false;
}

}  // namespace flattail::test

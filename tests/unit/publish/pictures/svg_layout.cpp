#include "unit/publish/pictures/svg_layout.h"

#include <cstdio>
#include <pugixml.hpp>

#include "publish/pictures/label_width.h"

namespace flattail::test {

namespace {

// Boxes may touch by this much: the estimate of widths is a generous one.
constexpr double kGenerous = 0.94;

PlacedText place(const pugi::xml_node& group, const std::string& text) {
    double x = 0.0, y = 0.0;
    std::sscanf(group.attribute("transform").value(), "translate(%lf,%lf)", &x, &y);
    const double size = group.attribute("font-size").as_double(14.0);
    const double width = kGenerous * flattail::publish::estimate_width_px(text, size);
    const std::string anchor = group.attribute("text-anchor").value();
    const double left = anchor == "end"      ? x - width
                        : anchor == "middle" ? x - 0.5 * width
                                             : x;
    return {text, left, left + width, y - 0.72 * size, y + 0.18 * size};
}

bool overlap(const PlacedText& a, const PlacedText& b) {
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

}  // namespace

SvgPage read_svg(const std::string& svg) {
    SvgPage page;
    pugi::xml_document document;
    if (!document.load_string(svg.c_str())) return page;
    const pugi::xml_node root = document.child("svg");
    double x = 0.0, y = 0.0;
    page.is_valid = std::sscanf(root.attribute("viewBox").value(), "%lf %lf %lf %lf", &x,
                                &y, &page.width, &page.height) == 4;
    page.title = root.child_value("title");
    for (const pugi::xpath_node& found : document.select_nodes("//text")) {
        const pugi::xml_node node = found.node();
        std::string text;
        for (const pugi::xpath_node& part : node.select_nodes(".//text()")) {
            text += part.node().value();
        }
        if (text.find_first_not_of(" \n\t") == std::string::npos) continue;
        page.texts.push_back(place(node.parent(), text));
    }
    return page;
}

std::vector<std::string> find_collisions(const SvgPage& page) {
    std::vector<std::string> found;
    for (std::size_t i = 0; i < page.texts.size(); ++i) {
        const PlacedText& a = page.texts[i];
        if (a.left < 0 || a.right > page.width || a.top < 0 || a.bottom > page.height) {
            found.push_back("'" + a.text + "' leaves the page");
        }
        for (std::size_t j = i + 1; j < page.texts.size(); ++j) {
            if (!overlap(a, page.texts[j])) continue;
            found.push_back("'" + a.text + "' lies on '" + page.texts[j].text + "'");
        }
    }
    return found;
}

}  // namespace flattail::test

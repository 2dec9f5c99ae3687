// Scripts and tables into SVG, through gnuplot.
#include <fmt/format.h>

#include "flattail/pictures.h"
#include "publish/check_findings.h"
#include "publish/children/child.h"
#include "publish/pictures/pictures.h"

namespace flattail::publish {

namespace {

constexpr int kLimit_s = 60;

void replace_all(std::string& text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size())) {
        text.replace(at, from.size(), to);
    }
}

// Filters that no picture uses.
void erase_filters(std::string& svg) {
    for (std::size_t from = svg.find("<filter"); from != std::string::npos;
         from = svg.find("<filter", from)) {
        const std::size_t to = svg.find("</filter>", from);
        if (to == std::string::npos) return;
        svg.erase(from, to + 9 - from);
    }
}

std::string escape_xml(std::string text) {
    replace_all(text, "&", "&amp;");
    replace_all(text, "<", "&lt;");
    replace_all(text, ">", "&gt;");
    return text;
}

// What gnuplot cannot be told: the title, a face for machines without Inter, and no
// version of the program that drew it.
std::string finish_svg(std::string svg, const std::string& title) {
    replace_all(svg, "<title>Gnuplot</title>",
                "<title>" + escape_xml(title) + "</title>");
    const std::size_t from = svg.find("<desc>");
    const std::size_t to = svg.find("</desc>");
    if (from != std::string::npos && to != std::string::npos) {
        svg.erase(from, to + 7 - from);
    }
    erase_filters(svg);
    replace_all(svg, "font-family=\"Inter\"",
                "font-family=\"Inter, Helvetica, Arial, sans-serif\"");
    return svg;
}

std::string draw_one(const ScratchFolder& scratch, const Rendering& rendering) {
    const std::string settings =
        fmt::format("phone={}; dark={}; set output 'picture.svg'",
                    rendering.page == PageKind::kPhone ? 1 : 0,
                    rendering.theme == Theme::kDark ? 1 : 0);
    Child gnuplot;
    gnuplot.program = "gnuplot";
    gnuplot.package = "gnuplot-nox";
    gnuplot.words = {"-d", "-e", settings, rendering.picture->name + ".gp"};
    gnuplot.directory = scratch.path();
    gnuplot.limit_s = kLimit_s;
    run_child(gnuplot);
    return finish_svg(scratch.read("picture.svg"), rendering.picture->title);
}

}  // namespace

std::vector<std::string> draw(const PictureSet& set,
                              const std::vector<Rendering>& renderings,
                              const std::string& directory) {
    const ScratchFolder scratch(directory);
    for (const NamedText& table : set.tables) scratch.write(table.name, table.text);
    for (const Picture& picture : set.pictures) {
        scratch.write(picture.name + ".gp", picture.script);
    }
    std::vector<std::string> drawn;
    for (const Rendering& rendering : renderings) {
        drawn.push_back(draw_one(scratch, rendering));
    }
    return drawn;
}

Drawn write_drawn(const PictureSet& set, const std::string& directory) {
    std::vector<Rendering> renderings;
    std::vector<NamedText> files = set.tables;
    for (const Picture& picture : set.pictures) {
        files.push_back({picture.name + ".gp", picture.script});
        renderings.push_back({&picture, PageKind::kWide, Theme::kLight});
        renderings.push_back({&picture, PageKind::kPhone, Theme::kLight});
    }
    Drawn result;
    try {
        const std::vector<std::string> drawn = draw(set, renderings, directory);
        for (std::size_t i = 0; i < drawn.size(); ++i) {
            const bool is_phone = renderings[i].page == PageKind::kPhone;
            files.push_back(
                {renderings[i].picture->name + (is_phone ? "-phone.svg" : ".svg"),
                 drawn[i]});
        }
    } catch (const OutputFailed& error) {
        result.problems.push_back(std::string("no pictures: ") + error.what());
    }
    write_files_together(directory, files);
    for (const NamedText& file : files) result.files.push_back(file.name);
    return result;
}

}  // namespace flattail::publish

namespace flattail {

Drawn write_pictures(const Findings& findings, const Scenario& scenario,
                     const std::string& directory) {
    publish::check_findings(findings);
    return publish::write_drawn(publish::make_pictures(findings, scenario.model()),
                                directory);
}

}  // namespace flattail

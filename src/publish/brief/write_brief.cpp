// Page, PDF and card of a brief.
#include "flattail/brief.h"
#include "publish/brief/calendar.h"
#include "publish/brief/card.h"
#include "publish/brief/content.h"
#include "publish/brief/page_html.h"
#include "publish/check_findings.h"
#include "publish/children/child.h"
#include "publish/pictures/course_picture.h"
#include "publish/pictures/pictures.h"
#include "publish/tables/write_files.h"

namespace flattail {

namespace {

using namespace publish;

constexpr int kPdfLimit_s = 120;
constexpr std::int64_t kSecondsPerDay = 86400;

// Every form of the dots, then of the course.
std::vector<Rendering> list_renderings(const PictureSet& set) {
    std::vector<Rendering> renderings;
    for (const Picture& picture : set.pictures) {
        for (const Theme theme : {Theme::kLight, Theme::kDark}) {
            for (const PageKind page : {PageKind::kWide, PageKind::kPhone}) {
                renderings.push_back({&picture, page, theme});
            }
        }
    }
    return renderings;
}

PictureForms take_forms(const std::vector<std::string>& drawn, std::size_t first) {
    return {drawn[first], drawn[first + 1], drawn[first + 2], drawn[first + 3]};
}

BriefPictures draw_pictures(const Findings& findings, const scenario::Model& model,
                            const std::vector<int>& shown, const std::string& directory) {
    PictureSet set;
    add_dots(findings, shown, set);
    add_course(findings, model, set);
    const std::vector<std::string> drawn = draw(set, list_renderings(set), directory);
    return {take_forms(drawn, 0), take_forms(drawn, 4)};
}

// gnuplot's marks take their colour from the page around them, which PDF writers do not
// know; rsvg-convert settles them.
std::string settle_svg(const ScratchFolder& scratch, const std::string& svg) {
    if (svg.empty()) return svg;
    scratch.write("picture.svg", svg);
    Child rsvg;
    rsvg.program = "rsvg-convert";
    rsvg.package = "librsvg2-bin";
    rsvg.words = {"-f", "svg", "-o", "settled.svg", "picture.svg"};
    rsvg.directory = scratch.path();
    run_child(rsvg);
    return scratch.read("settled.svg");
}

std::string date_of(const scenario::Model& model) {
    const std::int64_t day = count_days_to(model.race.date).value_or(0);
    return std::to_string(std::max<std::int64_t>(day, 0) * kSecondsPerDay);
}

std::string write_pdf(const BriefContent& content, const BriefPictures& pictures,
                      const scenario::Model& model, const std::string& directory) {
    const ScratchFolder scratch(directory);
    BriefPictures settled;
    settled.dots.wide = settle_svg(scratch, pictures.dots.wide);
    settled.course.wide = settle_svg(scratch, pictures.course.wide);
    scratch.write("brief.html", write_brief_html(content, settled));
    Child weasyprint;
    weasyprint.program = "weasyprint";
    weasyprint.package = "weasyprint";
    weasyprint.words = {"-q", "brief.html", "brief.pdf"};
    weasyprint.directory = scratch.path();
    weasyprint.limit_s = kPdfLimit_s;
    weasyprint.source_date = date_of(model);
    run_child(weasyprint);
    return scratch.read("brief.pdf");
}

}  // namespace

std::string write_brief_card(const Findings& findings, const Scenario& scenario) {
    check_findings(findings);
    return write_card(
        make_brief_content(findings, scenario.model(), plan_pumping(scenario)));
}

Drawn write_brief(const Findings& findings, const Scenario& scenario,
                  const std::string& directory, const AdviceTurns& turns) {
    check_findings(findings);
    const scenario::Model& model = scenario.model();
    const PumpPlan plan = plan_pumping(scenario);
    const BriefContent content = make_brief_content(findings, model, plan, turns);
    Drawn result;
    BriefPictures pictures;
    try {
        pictures = draw_pictures(findings, model, content.shown, directory);
    } catch (const OutputFailed& error) {
        result.problems.push_back(std::string("no pictures in the brief: ") +
                                  error.what());
    }
    std::vector<NamedText> files{{"brief.html", write_brief_html(content, pictures)},
                                 {"brief.txt", write_card(content)},
                                 {"pump.csv", write_pump_csv(plan)}};
    try {
        files.push_back({"brief.pdf", write_pdf(content, pictures, model, directory)});
    } catch (const OutputFailed& error) {
        result.problems.push_back(std::string("no brief.pdf: ") + error.what());
    }
    write_files_together(directory, files);
    for (const NamedText& file : files) result.files.push_back(file.name);
    return result;
}

}  // namespace flattail

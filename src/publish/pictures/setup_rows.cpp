#include "publish/pictures/setup_rows.h"

#include <algorithm>
#include <array>

#include "publish/pages/page_tables.h"
#include "publish/pages/text.h"
#include "publish/pictures/label_width.h"
#include "publish/pictures/page_sizes.h"

namespace flattail::publish {

namespace {

// Beyond four setups colours and dashes repeat less than grey, and names tell them apart.
constexpr int kStyles = 4;
// gnuplot's numbers of shapes: circle, square, diamond, triangles, pentagon; full, then
// open ones. The first four go with the colours.
constexpr std::array<double, 12> kShapes{7, 5, 13, 9, 11, 15, 6, 4, 12, 8, 10, 14};

const SetupFindings& at(const Findings& findings, int setup) {
    return findings.setups[static_cast<std::size_t>(setup)];
}

// Broken at blanks; a word that is too long is cut.
std::vector<std::string> break_text(const std::string& text, double size_px,
                                    double room_px) {
    std::vector<std::string> lines;
    std::string line;
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t end = std::min(text.find(' ', from), text.size());
        const std::string word =
            fit_text(text.substr(from, end - from), size_px, room_px);
        const std::string longer = line.empty() ? word : line + ' ' + word;
        if (!line.empty() && estimate_width_px(longer, size_px) > room_px) {
            lines.push_back(line);
            line = word;
        } else {
            line = longer;
        }
        from = end + 1;
    }
    lines.push_back(line);
    return lines;
}

void set_lines(ScriptSettings& s, const std::string& prefix,
               const std::vector<std::string>& texts, double size_px, double room_px) {
    std::vector<std::string> lines;
    for (const std::string& text : texts) {
        for (std::string& line : break_text(clean_line(text), size_px, room_px)) {
            lines.push_back(std::move(line));
        }
    }
    s.set(prefix + "FOOTS", static_cast<double>(lines.size()));
    s.set(prefix + "FOOT", lines);
}

}  // namespace

double choose_style(std::size_t i, std::size_t setups, bool is_advised) {
    if (setups <= kStyles) return static_cast<double>(i) + 1.0;
    return is_advised ? 1.0 : kStyles + 1.0;
}

double choose_shape(std::size_t i) { return kShapes[i % kShapes.size()]; }

void set_rows(ScriptSettings& s, const Findings& findings,
              const std::vector<int>& shown) {
    const int advised = find_advised(findings);
    std::vector<double> row, style, shape, bolded;
    for (const int setup : shown) {
        const auto i = static_cast<std::size_t>(setup);
        row.push_back(setup + 1);
        style.push_back(choose_style(i, findings.setups.size(), setup == advised));
        shape.push_back(choose_shape(i));
        bolded.push_back(setup == advised ? 1 : 0);
    }
    s.set("ROWS", static_cast<double>(shown.size()));
    s.set("ROW", row);
    s.set("STYLE", style);
    s.set("MARK", shape);
    s.set("BOLDED", bolded);
    s.set("AGAINST", findings.against + 1);
}

std::vector<std::string> name_setups(const Findings& findings,
                                     const std::vector<int>& shown) {
    std::vector<std::string> names;
    for (const int setup : shown) {
        const SetupFindings& found = at(findings, setup);
        names.push_back(clean_line(found.name) + (found.vetoed ? " (ruled out)" : ""));
    }
    return names;
}

void set_captions(ScriptSettings& s, const std::vector<std::string>& names,
                  const std::vector<std::string>& notes, double indent_px) {
    constexpr double kGap_px = 16.0;
    // Of the line, so that a long note leaves room for a name.
    constexpr double kMostNote = 0.65;
    const double wide_px = kWide_px - 2 * kPad_px - indent_px;
    const double phone_px = kPhone_px - 2 * kPad_px - indent_px;
    double note_px = 0.0;
    std::vector<std::string> wide, phone;
    for (const std::string& note : notes) {
        wide.push_back(fit_text(note, kWideType_px - 1, kMostNote * wide_px));
        phone.push_back(fit_text(note, kPhoneType_px - 1, phone_px));
        note_px = std::max(note_px, estimate_width_px(wide.back(), kWideType_px - 1));
    }
    s.set("WIDE_NAME", fit_names(names, kWideType_px, wide_px - note_px - kGap_px));
    s.set("PHONE_NAME", fit_names(names, kPhoneType_px, phone_px));
    s.set("WIDE_NOTE", wide);
    s.set("PHONE_NOTE", phone);
}

void set_sides(ScriptSettings& s, const std::string& left, const std::string& right,
               const std::string& word) {
    constexpr double kArrowAndGap_px = 28.0;
    const double size_px = kWideType_px - 1;
    const double word_px = estimate_width_px(" " + word, size_px);
    for (const bool is_phone : {false, true}) {
        // On a phone each has a line of its own.
        const double line_px =
            is_phone ? kPhone_px - 2 * kPad_px : 0.5 * kWide_px - kPad_px;
        const double room_px = line_px - kArrowAndGap_px - word_px;
        const auto names = fit_names({left, right}, size_px, room_px);
        const std::string page = is_phone ? "PHONE_" : "WIDE_";
        s.set(page + "LEFT", names[0] + " " + word);
        s.set(page + "RIGHT", names[1] + " " + word);
    }
}

void set_foot(ScriptSettings& s, const std::vector<std::string>& texts) {
    set_lines(s, "WIDE_", texts, kWideType_px - 1, kWide_px - 2 * kPad_px);
    set_lines(s, "PHONE_", texts, kPhoneType_px - 1, kPhone_px - 2 * kPad_px);
}

}  // namespace flattail::publish

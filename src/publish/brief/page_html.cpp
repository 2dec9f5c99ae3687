#include "publish/brief/page_html.h"

#include <algorithm>
#include <cstdint>
#include <kainjow/mustache.hpp>

#include "flattail/problem.h"
#include "publish/templates.h"

namespace flattail::publish {

namespace {

using kainjow::mustache::data;

data to_data(const PageValues& values) {
    data object{data::type::object};
    for (const auto& [name, text] : values.texts) object.set(name, text);
    for (const auto& [name, flag] : values.flags) {
        object.set(name, flag ? data::type::bool_true : data::type::bool_false);
    }
    for (const auto& [name, entries] : values.lists) {
        data list{data::type::list};
        for (const PageValues& entry : entries) list.push_back(to_data(entry));
        object.set(name, list);
    }
    return object;
}

std::vector<PageValues> list_lines(const std::vector<std::string>& lines) {
    std::vector<PageValues> list;
    for (const std::string& line : lines) list.push_back({{{"line", line}}, {}, {}});
    return list;
}

// Lines below the table that leave room on two sheets for the picture of the course.
constexpr std::size_t kMostLines = 30;

std::size_t count_lines(const BriefContent& content) {
    std::size_t count = content.also.size();
    for (const BriefBlock& block : content.blocks) count += block.lines.size();
    return count;
}

std::string escape_attribute(const std::string& text) {
    return kainjow::mustache::html_escape(text);
}

// RFC 4648, section 4.
std::string encode_base64(const std::string& bytes) {
    constexpr std::string_view kDigits =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string coded;
    coded.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        const std::size_t have = std::min<std::size_t>(3, bytes.size() - at);
        std::uint32_t bits = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            bits =
                bits << 8 | (i < have ? static_cast<unsigned char>(bytes[at + i]) : 0U);
        }
        for (std::size_t i = 0; i < 4; ++i) {
            coded += i <= have ? kDigits[bits >> (18 - 6 * i) & 63U] : '=';
        }
    }
    return coded;
}

std::string embed(const std::string& svg) {
    return "data:image/svg+xml;base64," + encode_base64(svg);
}

std::string write_source(const std::string& svg, const char* media) {
    if (svg.empty()) return "";
    return std::string("<source media=\"") + media + "\" srcset=\"" + embed(svg) +
           "\"/>\n";
}

// The form that fits width and theme; printers and old readers take the wide light one.
std::string write_picture(const PictureForms& forms, const std::string& alt) {
    return "<picture>\n" +
           write_source(forms.phone_dark,
                        "(max-width: 560px) and (prefers-color-scheme: dark)") +
           write_source(forms.wide_dark, "(prefers-color-scheme: dark)") +
           write_source(forms.phone, "(max-width: 560px)") + "<img alt=\"" +
           escape_attribute(alt) + "\" src=\"" + embed(forms.wide) + "\"/>\n</picture>";
}

std::vector<PageValues> list_rows(const BriefContent& content) {
    std::vector<PageValues> rows;
    for (const BriefRow& row : content.rows) {
        std::vector<PageValues> cells;
        for (std::size_t i = 0; i < row.cells.size(); ++i) {
            cells.push_back({{{"text", row.cells[i]}}, {{"is_first", i == 0}}, {}});
        }
        rows.push_back({{{"label", row.label}}, {}, {{"cells", cells}}});
    }
    return rows;
}

std::vector<PageValues> list_columns(const BriefContent& content) {
    std::vector<PageValues> columns;
    for (const BriefColumn& column : content.columns) {
        const std::string dash = column.role.empty() ? "" : ": ";
        columns.push_back(
            {{{"name", column.name}, {"role", column.role + dash + column.wheels}},
             {},
             {}});
    }
    return columns;
}

std::vector<PageValues> list_blocks(const BriefContent& content) {
    std::vector<PageValues> blocks;
    for (const BriefBlock& block : content.blocks) {
        blocks.push_back(
            {{{"title", block.title}}, {}, {{"lines", list_lines(block.lines)}}});
    }
    return blocks;
}

std::vector<PageValues> list_pump_rows(const BriefPump& pump) {
    std::vector<PageValues> rows;
    for (const BriefRow& row : pump.rows) {
        std::vector<PageValues> cells;
        for (const std::string& cell : row.cells) {
            // psi and bar on a line each.
            const std::size_t comma = std::min(cell.find(", "), cell.size());
            cells.push_back({{{"psi", cell.substr(0, comma)},
                              {"bar", cell.substr(std::min(comma + 2, cell.size()))}},
                             {},
                             {}});
        }
        rows.push_back({{{"label", row.label}}, {}, {{"cells", cells}}});
    }
    return rows;
}

bool has_advice(const BriefContent& content) {
    return !content.columns.empty() && content.columns.front().role == "ride this";
}

}  // namespace

std::string fill_template(std::string_view page, const PageValues& values) {
    kainjow::mustache::mustache filler{std::string(page)};
    if (!filler.is_valid()) throw OurMistake("a template: " + filler.error_message());
    return filler.render(to_data(values));
}

PageValues list_brief_values(const BriefContent& content, const BriefPictures& pictures) {
    PageValues values;
    const bool has_dots = !pictures.dots.wide.empty();
    const bool has_course = !pictures.course.wide.empty();
    values.texts = {
        {"race", content.race},
        {"rider", content.rider},
        {"day", content.day},
        {"start", content.start},
        {"aims", content.aims},
        {"advice", content.advice},
        {"certainty", content.certainty},
        {"wheels", has_advice(content) ? content.columns.front().wheels : ""},
        {"dots", has_dots ? write_picture(pictures.dots, content.picture_text) : ""},
        {"dots_text", content.picture_text},
        {"course", has_course ? write_picture(pictures.course, content.course_text) : ""},
        {"pump_title", content.pump.title},
        {"judged_note", content.judged_note},
        {"footer", content.footer}};
    values.flags = {{"has_rider", !content.rider.empty()},
                    {"has_day", !content.day.empty()},
                    {"is_invented", content.invented},
                    {"is_stopped_early", content.stopped_early},
                    {"has_certainty", !content.certainty.empty()},
                    {"has_wheels", has_advice(content)},
                    {"has_also", !content.also.empty()},
                    {"has_pump", !content.pump.title.empty()},
                    {"has_pump_table", !content.pump.columns.empty()},
                    {"has_dots", has_dots},
                    {"has_crosses", content.has_crosses},
                    {"has_goal", content.aims.rfind("Goal", 0) == 0},
                    {"has_course", has_course},
                    {"is_crowded", count_lines(content) > kMostLines}};
    values.lists = {{"reasons", list_lines(content.reasons)},
                    {"deadlines", list_lines(content.deadlines)},
                    {"columns", list_columns(content)},
                    {"rows", list_rows(content)},
                    {"also", list_lines(content.also)},
                    {"pump_columns", list_lines(content.pump.columns)},
                    {"pump_rows", list_pump_rows(content.pump)},
                    {"pump_lines", list_lines(content.pump.lines)},
                    {"blocks", list_blocks(content)}};
    return values;
}

std::string write_brief_html(const BriefContent& content, const BriefPictures& pictures) {
    return fill_template(find_template("brief.html"),
                         list_brief_values(content, pictures));
}

}  // namespace flattail::publish

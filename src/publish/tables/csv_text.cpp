#include "publish/tables/csv_text.h"

#include <fmt/format.h>

#include <cmath>

#include "base/expects.h"
#include "flattail/problem.h"

namespace flattail::publish {

std::string quote_field(const std::string& text) {
    // Blanks at the ends are kept by RFC 4180, but many readers drop them.
    const bool has_outer_blank =
        !text.empty() && (text.front() == ' ' || text.back() == ' ');
    if (!has_outer_blank && text.find_first_of(",\"\r\n;\t") == std::string::npos) {
        return text;
    }
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

std::string csv_number(double value) {
    if (!std::isfinite(value)) {
        throw OurMistake(fmt::format("a table holds {} where a number belongs", value));
    }
    return fmt::format("{}", value == 0.0 ? 0.0 : value);
}

std::string csv_time(double time_s) {
    const bool is_no_finish = std::isinf(time_s) && time_s > 0.0;
    return is_no_finish ? "no finish" : csv_number(time_s);
}

std::string csv_optional(double value) {
    return std::isfinite(value) ? csv_number(value) : "";
}

CsvText::CsvText(const std::vector<std::string>& header) : columns_(header.size()) {
    append(header);
}

void CsvText::add_row(const std::vector<std::string>& fields) {
    FLATTAIL_EXPECTS(fields.size() == columns_);
    append(fields);
}

void CsvText::append(const std::vector<std::string>& fields) {
    for (std::size_t i = 0; i < fields.size(); ++i) {
        if (i > 0) text_ += ',';
        text_ += quote_field(fields[i]);
    }
    text_ += "\r\n";
}

}  // namespace flattail::publish

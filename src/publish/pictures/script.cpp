#include "publish/pictures/script.h"

#include <fmt/format.h>

#include "publish/pages/text.h"
#include "publish/templates.h"

namespace flattail::publish {

namespace {

constexpr std::string_view kInclude = "#include ";

// Lines "#include NAME" stand for the template of that name.
std::string expand(std::string_view text) {
    std::string expanded;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        const std::string_view line = text.substr(at, end - at);
        if (line.substr(0, kInclude.size()) == kInclude) {
            expanded += find_template(line.substr(kInclude.size()));
        } else {
            expanded.append(line).append("\n");
        }
        at = end + 1;
    }
    return expanded;
}

}  // namespace

std::string quote_gnuplot(const std::string& text) {
    std::string quoted = "'";
    for (const char c : clean_line(text)) {
        if (c == '\'') quoted += '\'';
        quoted += c;
    }
    return quoted + '\'';
}

ScriptSettings::ScriptSettings(const std::string& title)
    : text_(fmt::format("# {}\n# Draws from the tables beside it; change what you like:\n"
                        "#   gnuplot -e \"phone=1\" SCRIPT > picture.svg\n"
                        "if (!exists('phone')) phone = 0\n"
                        "if (!exists('dark')) dark = 0\n",
                        clean_line(title))) {}

void ScriptSettings::set(const std::string& name, double value) {
    // Without a point gnuplot would divide as whole numbers.
    text_ += fmt::format(
        "{} = {:.9g}{}\n", name, value,
        fmt::format("{:.9g}", value).find_first_of(".e") == std::string::npos ? ".0"
                                                                              : "");
}

void ScriptSettings::set(const std::string& name, const std::string& text) {
    text_ += fmt::format("{} = {}\n", name, quote_gnuplot(text));
}

void ScriptSettings::set(const std::string& name, const std::vector<double>& values) {
    if (values.empty()) return;
    text_ += fmt::format("array {}[{}] = [{}]\n", name, values.size(),
                         fmt::join(values, ", "));
}

void ScriptSettings::set(const std::string& name, const std::vector<std::string>& texts) {
    std::vector<std::string> quoted;
    for (const std::string& text : texts) quoted.push_back(quote_gnuplot(text));
    text_ +=
        fmt::format("array {}[{}] = [{}]\n", name, texts.size(), fmt::join(quoted, ", "));
}

void ScriptSettings::set_ticks(const std::string& name,
                               const std::vector<std::string>& labels,
                               const std::vector<double>& places) {
    std::vector<std::string> ticks, bare;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        ticks.push_back(fmt::format("\"{}\" {}", labels[i], places[i]));
        bare.push_back(fmt::format("\"\" {}", places[i]));
    }
    set(name, fmt::format("{}", fmt::join(ticks, ", ")));
    set(name + "_BARE", fmt::format("{}", fmt::join(bare, ", ")));
}

std::string write_script(const ScriptSettings& settings,
                         const std::string& template_name) {
    return settings.text() + '\n' + std::string(find_template("picture-common.gp")) +
           expand(find_template(template_name));
}

}  // namespace flattail::publish

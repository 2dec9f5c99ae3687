// Which pressure is best, a few lines for each setup.
#include <fmt/format.h>

#include <algorithm>

#include "flattail/preparation.h"
#include "publish/pages/text.h"
#include "publish/pages/text_table.h"
#include "publish/words.h"

namespace flattail {

namespace {

using namespace publish;

constexpr double kPsi_pa = 6894.757293168;  // NIST SP 811 (2008), appendix B.8

std::string write_range(double from_pa, double to_pa) {
    return fmt::format("{:.0f}-{:.0f} ({:.1f}-{:.1f})", from_pa / kPsi_pa,
                       to_pa / kPsi_pa, from_pa / 1e5, to_pa / 1e5);
}

std::string write_short(double pa) {
    return fmt::format("{:.0f} ({:.1f})", pa / kPsi_pa, pa / 1e5);
}

TextRow lay_wheel(const WheelPressure& wheel) {
    TextRow row;
    row.mark = "    ";
    row.name = wheel.wheel;
    row.cells = {write_short(wheel.stated_pa), write_short(wheel.best_pa),
                 write_range(wheel.flat_from_pa, wheel.flat_to_pa),
                 format_difference(wheel.gain_s)};
    return row;
}

std::vector<std::string> lay_setup(const SetupPressure& setup,
                                   const PageOptions& options) {
    TextTable table;
    table.corner = "  " + setup.name;
    table.columns = {{{"STATED"}}, {{"BEST"}}, {{"AS GOOD"}}, {{"AGAINST", "STATED"}}};
    for (const WheelPressure& wheel : setup.wheels) {
        if (!wheel.trials.empty()) table.rows.push_back(lay_wheel(wheel));
    }
    return lay_table(table, options);
}

std::string describe_bounds(const WheelPressure& wheel) {
    if (wheel.trials.empty()) {
        return fmt::format("{}: nothing to try, {} is below {}", wheel.wheel,
                           format_pressure(wheel.highest.gauge_pa),
                           format_pressure(wheel.lowest.gauge_pa));
    }
    return fmt::format("{}: tried from {} ({}) to {} ({} at the hottest moment)",
                       wheel.wheel, format_pressure(wheel.lowest.gauge_pa),
                       wheel.lowest.whose, format_pressure(wheel.highest.gauge_pa),
                       wheel.highest.whose);
}

}  // namespace

std::string write_pressure_page(const std::vector<SetupPressure>& setups,
                                const PageOptions& asked) {
    PageOptions options = asked;
    options.width = std::max(asked.width, 80);
    std::string text =
        "BEST PRESSURE for the average time, rolling and flats; psi (bar)\n";
    const auto append = [&](const std::string& line, const std::string& head) {
        for (const std::string& part : wrap(line, options.width, head)) {
            text += part + '\n';
        }
    };
    for (const SetupPressure& setup : setups) {
        if (!setup.missing.empty()) {
            append(setup.name + ": not tried, limits are not stated. Add:", "  ");
            for (const std::string& missing : setup.missing) append(missing, "    ");
            continue;
        }
        for (const std::string& line : lay_setup(setup, options)) text += line + '\n';
        for (const WheelPressure& wheel : setup.wheels) {
            append(describe_bounds(wheel), "    ");
        }
    }
    append(
        "As good: within 5 s, or one computing error, of the best. How rolling answers "
        "to "
        "pressure on a real road is poorly known, and grip and comfort are not in it: a "
        "gain below 15 s is no reason to change. Rear with the best front.",
        "  ");
    return text;
}

}  // namespace flattail

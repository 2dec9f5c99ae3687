// A fitted log as TOML that scenarios include.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "evidence/flats/log_words.h"
#include "flattail/flat_log.h"

namespace flattail {

namespace {

// As many inputs as a scenario lets go together.
constexpr std::size_t kMostTogether = 16;

// A TOML basic string (TOML 1.0.0, "String").
std::string quote(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            quoted += '\\';
            quoted += c;
        } else if (byte < 0x20 || byte == 0x7f) {
            quoted += fmt::format("\\u{:04x}", byte);
        } else {
            quoted += c;
        }
    }
    return quoted + '"';
}

// Comments end at the line's end, whatever a file is called.
std::string in_comment(std::string text) {
    std::replace_if(
        text.begin(), text.end(),
        [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }, '?');
    return text;
}

std::string write_km(double distance_m) {
    return fmt::format("{} km", std::llround(distance_m / 1000.0));
}

// { low, mid, high } in a unit, with what it was learned from.
std::string write_belief(const Belief& belief, double unit_si, const std::string& unit,
                         const std::string& fitted_to) {
    const auto number = [&](double value) {
        const std::string text = fmt::format("{:.6g}", value / unit_si);
        return unit.empty() ? text : quote(text + ' ' + unit);
    };
    return fmt::format("{{ low = {}, mid = {}, high = {}, fitted_to = {} }}",
                       number(belief.low), number(belief.mid), number(belief.high),
                       quote(fitted_to));
}

std::string count(std::int64_t number, const char* one) {
    return fmt::format("{} {}{}", number, one, number == 1 ? "" : "s");
}

std::string count_flats(const FlatLog& log, std::int64_t flats, double distance_m,
                        const std::string& what) {
    const std::string name = std::filesystem::path(log.file).filename().string();
    return fmt::format("{}: {} in {} {}", name, count(flats, "flat"),
                       write_km(distance_m), what);
}

std::string write_list(const std::vector<std::string>& names) {
    std::string list;
    for (const std::string& name : names) {
        list += (list.empty() ? "" : ", ") + quote(name);
    }
    return '[' + list + ']';
}

std::string write_names(const std::vector<NamedDistance>& distances) {
    std::vector<std::string> names;
    for (const NamedDistance& entry : distances) names.push_back(entry.name);
    return write_list(names);
}

std::string write_rates(const FlatLog& log) {
    const FlatGroup& reference = log.groups.front();
    std::string text = "[flats]\n";
    text += "training = " +
            write_belief(reference.rate_per_m, 1e-6, "per 1000 km",
                         count_flats(log, reference.flats, reference.distance_m,
                                     "on " + reference.name)) +
            '\n';
    if (log.races.rides > 0) {
        text += "race_factor = " +
                write_belief(log.races.factor, 1.0, "",
                             count_flats(log, log.races.flats, log.races.distance_m,
                                         "of racing")) +
                '\n';
    }
    return text;
}

std::string write_cuts(const FlatLog& log) {
    if (!log.by_inner || log.groups.size() < 2) return {};
    std::string text = "\n# Against butyl.\n[flats.cuts]\n";
    for (std::size_t g = 1; g < log.groups.size(); ++g) {
        const FlatGroup& group = log.groups[g];
        text += quote(group.name) + " = " +
                write_belief(
                    group.ratio, 1.0, "",
                    count_flats(log, group.flats, group.distance_m, "on " + group.name)) +
                '\n';
    }
    return text;
}

std::string write_log_facts(const FlatLog& log) {
    std::vector<std::string> inners;
    for (const FlatGroup& group : log.groups) {
        if (log.by_inner && group.distance_m > 0.0) inners.push_back(group.name);
    }
    std::string text =
        "\n# What the rides were on: a scenario on other wheels is told.\n";
    text += "[flats.log]\nfile = " + quote(log.file) + '\n';
    text += "inners = " + write_list(inners) + '\n';
    text += "tyres = " + write_names(log.tyres) + '\n';
    text += "surfaces = " + write_names(log.surfaces) + '\n';
    return text;
}

std::string write_repairs(const FlatLog& log) {
    const LoggedRepairs& repairs = log.repairs;
    if (repairs.count == 0) return {};
    const std::string name = std::filesystem::path(log.file).filename().string();
    const std::string source =
        fmt::format("{}: {}", name, count(repairs.count, "repair"));
    return "\n# A front wheel; a rear one takes longer by repair.rear_extra.\n[repair]\n"
           "time = " +
           write_belief(repairs.median_s, 60.0, "min", source) +
           fmt::format("\nspread = {:.3g}\n", repairs.spread);
}

// The rate and the ratios to it were counted against each other.
std::string write_together(const FlatLog& log) {
    const std::size_t groups = log.groups.size();
    if (!log.by_inner || groups < 2) return {};
    const std::size_t kept = std::min(groups, kMostTogether);
    std::vector<std::string> names{"flats.training"};
    for (std::size_t g = 1; g < kept; ++g) {
        names.push_back("inner." + log.groups[g].name + ".cuts");
    }
    std::string rows;
    for (std::size_t a = 0; a < kept; ++a) {
        std::string row;
        for (std::size_t b = 0; b < kept; ++b) {
            row +=
                fmt::format("{}{:.6g}", b == 0 ? "" : ", ", log.together[a * groups + b]);
        }
        rows += fmt::format("    [{}],\n", row);
    }
    return "\n# Few flats on butyl make others look worse: the doubts go together.\n"
           "[[correlated]]\nwhere_used = true\ninputs = " +
           write_list(names) + "\nmatrix = [\n" + rows + "]\n";
}

}  // namespace

std::string write_flat_library(const FlatLog& log) {
    std::string text = fmt::format(
        "# Learned by flattail from {}: {}, {}, {},\n"
        "# {} to {}. Include it: include = [\"flats.toml\"]. Values are 9-in-10 ranges\n"
        "# with their middle; rates are per distance in training, dry, on the race "
        "tyre.\n\n",
        in_comment(log.file), count(log.rides, "ride"), write_km(log.distance_m),
        count(log.flats, "flat"), log.first_date, log.last_date);
    return text + write_rates(log) + write_cuts(log) + write_log_facts(log) +
           write_repairs(log) + write_together(log);
}

}  // namespace flattail

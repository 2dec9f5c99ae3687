// The page of `flattail evidence`: what the tests say together, in plain words.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "flattail/evidence.h"
#include "publish/evidence/watts.h"
#include "publish/pages/page.h"
#include "publish/pages/text.h"
#include "publish/pages/text_table.h"

namespace flattail {

namespace {

using namespace publish;
using Lines = std::vector<std::string>;

std::string write_watts(double crr) {
    const std::string text = fmt::format("{:+.1f}", to_watts(crr));
    return text == "-0.0" || text == "+0.0" ? "0.0" : text;
}

std::string write_watts(const Interval& crr) {
    if (!std::isfinite(crr.low)) return "-";
    return write_watts(crr.low) + " to " + write_watts(crr.high);
}

std::string write_crr(double crr) { return fmt::format("{:+.5f}", crr); }

// Products from the fastest to the slowest.
std::vector<std::size_t> sort_products(const RollingEvidence& evidence) {
    std::vector<std::size_t> order(evidence.products.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return evidence.pool.change[a] < evidence.pool.change[b];
    });
    return order;
}

std::string describe_counts(const RollingEvidence& evidence) {
    int used = 0, apart = 0;
    for (const RollingTest& test : evidence.tests) {
        used += test.used ? 1 : 0;
        apart += test.stands_out ? 1 : 0;
    }
    const auto all = static_cast<int>(evidence.tests.size());
    std::string text =
        fmt::format("{} tests of {} products by {} laborator{}: {} can be compared", all,
                    evidence.products.size() + 1, evidence.laboratories.size(),
                    evidence.laboratories.size() == 1 ? "y" : "ies", used);
    if (apart > 0)
        text += fmt::format(", {} of them stand{} out", apart, apart == 1 ? "s" : "");
    return text + ".";
}

Lines lay_head(const RollingEvidence& evidence, const PageOptions& options) {
    Lines lines{paint(
        shorten_middle("Rolling tests: " + clean_line(evidence.file), options.width),
        Ink::kStrong, options.colour)};
    const auto add = [&](const std::string& text) {
        const Lines wrapped = wrap(clean_line(text), options.width);
        lines.insert(lines.end(), wrapped.begin(), wrapped.end());
    };
    add(describe_counts(evidence));
    add("Only differences found inside one laboratory count. All are brought to a smooth "
        "flat road, 25 C and 5 bar (28 mm; less when wider).");
    return lines;
}

TextRow make_row(const std::string& name, std::vector<std::string> cells) {
    TextRow row;
    row.mark = "  ";
    row.name = clean_line(name);
    row.cells = std::move(cells);
    return row;
}

Lines lay_pool(const RollingEvidence& evidence, const PageOptions& options) {
    TextTable table;
    table.corner = "AGAINST " + shorten_end(clean_line(evidence.against), 16);
    table.columns = {{{"", "LABS"}},
                     {{"", "TESTS"}},
                     {{"", "WATTS"}},
                     {{"COULD BE", "(9 IN 10)"}},
                     {{"A NEW LAB", "WOULD FIND"}},
                     {{"CHANGE", "OF Crr"}}};
    const RollingPool& pool = evidence.pool;
    for (const std::size_t p : sort_products(evidence)) {
        const ProductEvidence& product = evidence.products[p];
        if (!pool.known[p]) {
            table.rows.push_back(make_row(product.name, {"0", "0", "-", "-", "-", "-"}));
            continue;
        }
        table.rows.push_back(
            make_row(product.name,
                     {std::to_string(product.laboratories), std::to_string(product.tests),
                      write_watts(pool.change[p]), write_watts(pool.could_be[p]),
                      write_watts(pool.next_found[p]), write_crr(pool.change[p])}));
    }
    Lines lines = lay_table(table, options);
    for (const std::string& line : wrap(
             "Watts of a pair of tyres at 45 km/h with 85 kg; minus rolls better. Slower "
             "riders save less.",
             options.width, "  ")) {
        lines.push_back(paint(line, Ink::kFaint, options.colour));
    }
    return lines;
}

Lines lay_makers(const RollingEvidence& evidence, const PageOptions& options) {
    const bool has_makers =
        std::any_of(evidence.tests.begin(), evidence.tests.end(),
                    [](const RollingTest& test) { return test.used && test.by_maker; });
    if (!has_makers) return {};
    TextTable table;
    table.corner = "MAKERS' TESTS, WATTS";
    for (const RollingPool& way : evidence.ways) {
        const bool chosen = way.makers == evidence.options.makers;
        table.columns.push_back({{chosen ? "(used)" : "", name_maker_rows(way.makers)}});
    }
    for (const std::size_t p : sort_products(evidence)) {
        std::vector<std::string> cells;
        for (const RollingPool& way : evidence.ways) {
            cells.push_back(way.known[p] ? write_watts(way.could_be[p]) : "no test");
        }
        table.rows.push_back(make_row(evidence.products[p].name, std::move(cells)));
    }
    return lay_table(table, options);
}

Lines lay_laboratories(const RollingEvidence& evidence, const PageOptions& options) {
    TextTable table;
    table.corner = "WHAT EACH FOUND, WATTS";
    table.columns = {
        {{"LABORATORY"}, Align::kStart}, {{"FOUND"}}, {{"19 IN 20"}}, {{"WITHOUT IT"}}};
    for (const std::size_t p : sort_products(evidence)) {
        const ProductEvidence& product = evidence.products[p];
        std::string name = product.name;
        for (const LaboratoryFinding& found : product.found) {
            const double half = 1.96 * found.standard_error;
            table.rows.push_back(make_row(
                name, {shorten_end(clean_line(found.laboratory +
                                              (found.by_maker ? " (maker)" : "")),
                                   22),
                       write_watts(found.change),
                       write_watts(Interval{found.change - half, found.change + half}),
                       write_watts(found.without_it)}));
            name.clear();
        }
    }
    return table.rows.empty() ? Lines{} : lay_table(table, options);
}

Lines lay_textbook(const RollingEvidence& evidence, const PageOptions& options) {
    TextTable table;
    table.corner = "TEXTBOOK WAYS";
    table.columns = {{{"", "MEAN"}},
                     {{"DerSimonian-", "Laird"}},
                     {{"Hartung-", "Knapp"}},
                     {{"", "NEXT LAB"}},
                     {{"REML", "MEAN"}}};
    for (const std::size_t p : sort_products(evidence)) {
        const ClassicalPool& pool = evidence.products[p].classical;
        if (pool.laboratories < 2) continue;
        table.rows.push_back(
            make_row(evidence.products[p].name,
                     {write_watts(pool.mean), write_watts(pool.confidence),
                      write_watts(pool.hartung_knapp), write_watts(pool.prediction),
                      write_watts(pool.reml_mean)}));
    }
    if (table.rows.empty()) return {};
    Lines lines = lay_table(table, options);
    lines.push_back(
        paint("  Ranges hold 19 times in 20. A dash: two laboratories predict no third.",
              Ink::kFaint, options.colour));
    return lines;
}

Lines lay_notes(const RollingEvidence& evidence, const PageOptions& options) {
    Lines lines;
    const auto add = [&](const std::string& head, const std::string& text) {
        for (const std::string& line : wrap(clean_line(text), options.width, head)) {
            lines.push_back(paint(line, Ink::kWarning, options.colour));
        }
    };
    for (const RollingTest& test : evidence.tests) {
        if (test.note.empty()) continue;
        add(test.used ? "  STANDS OUT  " : "  LEFT OUT    ",
            fmt::format("line {}, {}, {}: {}", test.place.line, test.source, test.product,
                        test.note));
    }
    for (const Problem& doubt : evidence.warnings) {
        add("  DOUBT       ",
            doubt.what + (doubt.hint.empty() ? "" : " -> " + doubt.hint));
    }
    if (!lines.empty()) {
        lines.insert(lines.begin(), paint("TO LOOK AT", Ink::kStrong, options.colour));
    }
    return lines;
}

Lines lay_use(const RollingEvidence& evidence, const PageOptions& options) {
    const std::size_t best = sort_products(evidence).front();
    const std::string name = clean_line(evidence.products[best].name);
    Lines lines{paint("TO USE IT", Ink::kStrong, options.colour)};
    for (const std::string& line :
         wrap("Copy rolling.toml beside a scenario; or name the tests themselves in it, "
              "evidence = { rolling = \"tests.csv\" }. Then say which part was tested:",
              options.width, "  ")) {
        lines.push_back(line);
    }
    for (const std::string& line :
         {std::string("include = [\"rolling.toml\"]"), std::string("[[inner]]"),
          fmt::format("name = \"{}\"", name),
          std::string("kind = \"latex\"  # or butyl, TPU, tubeless: all but its rolling"),
          fmt::format("tested_as = \"{}\"", name)}) {
        lines.push_back("      " + line);
    }
    if (!options.tables_directory.empty()) {
        lines.push_back("Tables: " + options.tables_directory);
    }
    return lines;
}

}  // namespace

std::string write_evidence_page(const RollingEvidence& evidence,
                                const PageOptions& raw_options) {
    const PageOptions options = settle_options(raw_options);
    Lines page = lay_head(evidence, options);
    append_section(page, lay_pool(evidence, options));
    append_section(page, lay_makers(evidence, options));
    append_section(page, lay_laboratories(evidence, options));
    append_section(page, lay_textbook(evidence, options));
    append_section(page, lay_notes(evidence, options));
    append_section(page, lay_use(evidence, options));
    return join_lines(page);
}

}  // namespace flattail

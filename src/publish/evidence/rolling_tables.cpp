// tests.csv, forest.csv and the library of pooled rolling tests.
#include <fmt/format.h>

#include <cmath>
#include <filesystem>

#include "evidence/rolling/belief.h"
#include "flattail/evidence.h"
#include "publish/evidence/watts.h"
#include "publish/tables/csv_text.h"
#include "publish/tables/write_files.h"

namespace flattail {

namespace {

using namespace publish;

std::string write_yes(bool is_so) { return is_so ? "yes" : "no"; }

std::string write_tests_csv(const RollingEvidence& evidence) {
    CsvText csv({"line", "source", "kind", "product", "method", "surface", "tyre",
                 "width_mm", "used", "crr", "standard_error_crr", "score", "stands_out",
                 "note"});
    for (const RollingTest& test : evidence.tests) {
        const bool converted = test.crr > 0.0;
        csv.add_row({std::to_string(test.place.line), test.source,
                     test.by_maker ? "maker" : "independent", test.product, test.method,
                     test.surface, test.tyre,
                     test.width_m > 0.0 ? csv_number(1e3 * test.width_m) : "",
                     write_yes(test.used), converted ? csv_number(test.crr) : "",
                     converted ? csv_number(test.standard_error) : "",
                     test.used ? csv_number(test.score) : "", write_yes(test.stands_out),
                     test.note});
    }
    return csv.text();
}

// One mark of the picture: where it stands and how far its bar reaches.
struct Mark {
    std::string what;
    std::string name;
    double change = 0.0;
    Interval range;
    int percent = 90;
};

class ForestCsv {
  public:
    ForestCsv()
        : csv_({"product", "what", "name", "change_crr", "low_crr", "high_crr",
                "interval_percent", "change_watts", "low_watts", "high_watts"}) {}

    void add(const std::string& product, const Mark& mark) {
        const bool bounded = std::isfinite(mark.range.low);
        const auto write = [&](double value, bool exists) {
            return exists ? csv_number(value) : std::string();
        };
        csv_.add_row({product, mark.what, mark.name, csv_number(mark.change),
                      write(mark.range.low, bounded), write(mark.range.high, bounded),
                      std::to_string(mark.percent), csv_number(to_watts(mark.change)),
                      write(to_watts(mark.range.low), bounded),
                      write(to_watts(mark.range.high), bounded)});
    }
    const std::string& text() const { return csv_.text(); }

  private:
    CsvText csv_;
};

constexpr double kScoreOf95 = 1.959963984540054;  // two-sided, normal

void add_laboratories(ForestCsv& csv, const ProductEvidence& product) {
    const double none = std::nan("");
    for (const LaboratoryFinding& found : product.found) {
        const double half = kScoreOf95 * found.standard_error;
        csv.add(product.name, {found.by_maker ? "maker" : "laboratory",
                               found.laboratory,
                               found.change,
                               {found.change - half, found.change + half},
                               95});
    }
    for (const LaboratoryFinding& found : product.found) {
        csv.add(product.name,
                {"without", found.laboratory, found.without_it, {none, none}, 95});
    }
}

void add_classical(ForestCsv& csv, const ProductEvidence& product) {
    const ClassicalPool& pool = product.classical;
    if (pool.laboratories < 2) return;
    csv.add(product.name,
            {"textbook", "DerSimonian-Laird", pool.mean, pool.confidence, 95});
    csv.add(product.name,
            {"textbook", "Hartung-Knapp", pool.mean, pool.hartung_knapp, 95});
    csv.add(product.name, {"textbook", "prediction", pool.mean, pool.prediction, 95});
    const double none = std::nan("");
    csv.add(product.name, {"textbook", "REML", pool.reml_mean, {none, none}, 95});
}

std::string write_forest_csv(const RollingEvidence& evidence) {
    ForestCsv csv;
    for (std::size_t p = 0; p < evidence.products.size(); ++p) {
        const ProductEvidence& product = evidence.products[p];
        add_laboratories(csv, product);
        for (const RollingPool& way : evidence.ways) {
            if (!way.known[p]) continue;
            csv.add(product.name, {"makers", name_maker_rows(way.makers), way.change[p],
                                   way.could_be[p], 90});
        }
        if (evidence.pool.known[p]) {
            const RollingPool& pool = evidence.pool;
            csv.add(product.name,
                    {"pooled", "pooled", pool.change[p], pool.could_be[p], 90});
            csv.add(product.name, {"new laboratory", "new laboratory", pool.change[p],
                                   pool.next_found[p], 90});
        }
        add_classical(csv, product);
    }
    return csv.text();
}

// A basic string of TOML 1.0.
std::string quote_toml(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') quoted += '\\';
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) {
            quoted += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
        } else {
            quoted += c;
        }
    }
    return quoted + '"';
}

std::string list_toml(const std::vector<std::string>& values) {
    return fmt::format("[{}]", fmt::join(values, ", "));
}

std::string write_product(const evidence::RollingBelief& belief, std::size_t p) {
    const evidence::TestedProduct& product = belief.products[p];
    std::vector<std::string> together, widths, tyres, surfaces;
    for (std::size_t q = 1; q < p; ++q) {
        together.push_back(csv_number(belief.find_correlation(p, q)));
    }
    for (const double width_m : product.widths_m) {
        widths.push_back(quote_toml(csv_number(1e3 * width_m) + " mm"));
    }
    for (const auto& tyre : product.tyres) tyres.push_back(quote_toml(tyre));
    for (const auto& surface : product.surfaces) surfaces.push_back(quote_toml(surface));
    return fmt::format(
        "\n[[evidence.rolling.product]]\nname = {}\nchange = {}\nsd = {}\n"
        "correlation = {}  # with the products above\ntests = {}\nlaboratories = {}\n"
        "widths = {}\ntyres = {}\nsurfaces = {}\n",
        quote_toml(product.name), csv_number(product.change), csv_number(product.sd),
        list_toml(together), product.tests, product.laboratories, list_toml(widths),
        list_toml(tyres), list_toml(surfaces));
}

void refuse_overwriting(const std::string& tests, const std::string& directory) {
    std::error_code error;
    const auto target = std::filesystem::path(directory) / "tests.csv";
    if (!std::filesystem::equivalent(tests, target, error)) return;
    throw OutputFailed(target.string() +
                       " is the file of tests itself; choose another folder with --out");
}

}  // namespace

std::string write_evidence_library(const RollingEvidence& evidence) {
    const evidence::RollingBelief belief = evidence::make_belief(evidence);
    std::string text = fmt::format(
        "# Written by flattail evidence. Changes of Crr against {}, pooled from tests.\n"
        "# A scenario includes this file and says which of its parts was tested:\n"
        "#   include = [\"rolling.toml\"]\n"
        "#   [[inner]]\n"
        "#   name = \"latex\"\n"
        "#   tested_as = {}\n\n"
        "[[evidence.rolling]]\nfrom = {}\nagainst = {}\nspecimen = {}\n",
        quote_toml(evidence.against), quote_toml(belief.products.back().name),
        quote_toml(belief.from), quote_toml(evidence.against),
        csv_number(belief.specimen_sd));
    for (std::size_t p = 1; p < belief.products.size(); ++p) {
        text += write_product(belief, p);
    }
    return text;
}

void write_evidence_tables(const RollingEvidence& evidence,
                           const std::string& directory) {
    refuse_overwriting(evidence.file, directory);
    write_files_together(directory, {{"tests.csv", write_tests_csv(evidence)},
                                     {"forest.csv", write_forest_csv(evidence)},
                                     {"rolling.toml", write_evidence_library(evidence)}});
}

}  // namespace flattail

#include "scenario/tested/read_belief.h"

#include <fmt/format.h>

#include "chance/correlation.h"
#include "input/toml/node_values.h"

namespace flattail::scenario {

namespace {

using evidence::RollingBelief;
using evidence::TestedProduct;
using input::Dimension;
using input::Node;

const char* const kHint = "let flattail evidence write this table anew";

Spec make_number_spec(std::string name, double least, double most) {
    Spec spec;
    spec.name = std::move(name);
    spec.label = spec.name;
    spec.dimension = Dimension::kNumber;
    spec.scale = Scale::kSigned;
    spec.least = least;
    spec.most = most;
    spec.advice = kHint;
    return spec;
}

const Node* require(Table& table, const char* key, base::ProblemList& problems) {
    const Node* node = table.find(key);
    if (!node) {
        problems.add_error(table.place(), fmt::format("{} has no {}", table.name(), key),
                           kHint);
    }
    return node;
}

std::vector<std::string> read_texts(const Node* list, base::ProblemList& problems) {
    std::vector<std::string> texts;
    if (!list) return texts;
    for (const Node& item : list->items) {
        if (const auto text = input::read_text(item, problems)) texts.push_back(*text);
    }
    return texts;
}

// A count that is printed and nothing else.
int read_count(const Node* node, base::ProblemList& problems) {
    if (!node) return 0;
    return static_cast<int>(input::read_whole_number(*node, problems).value_or(0));
}

class BeliefReader {
  public:
    explicit BeliefReader(base::ProblemList& problems) : problems_(problems) {}

    RollingBelief read(Table& table) {
        belief_.from = table.find_text("from").value_or("a library");
        belief_.products.emplace_back().name = table.find_text("against").value_or("");
        require(table, "against", problems_);
        belief_.specimen_sd =
            find_scale(table, "specimen").value_or(RollingOptions{}.specimen_sd);
        const Node* products = table.find("product");
        if (!products || !products->is_table_list()) {
            problems_.add_error(table.place(), table.name() + " has no products", kHint);
            return belief_;
        }
        rows_.push_back({});
        for (const Node& node : products->items) read_product(node);
        fill_correlation(products->place);
        return belief_;
    }

  private:
    void read_product(const Node& node) {
        Table table(&node, "evidence.rolling.product", problems_);
        TestedProduct product;
        product.name = table.find_text("name").value_or("");
        const Spec change =
            make_number_spec("evidence.rolling.product.change", -.01, .01);
        const Spec sd = make_number_spec("evidence.rolling.product.sd", 1e-7, .01);
        product.change = table.find_value(change).value_or(0.0);
        product.sd = table.find_value(sd).value_or(1.0);
        for (const char* key : {"name", "change", "sd"}) require(table, key, problems_);
        product.tests = read_count(table.find("tests"), problems_);
        product.laboratories = read_count(table.find("laboratories"), problems_);
        for (const std::string& width : read_texts(table.find("widths"), problems_)) {
            const auto width_m = input::parse_quantity(width, Dimension::kLength);
            if (width_m) product.widths_m.push_back(*width_m);
        }
        product.tyres = read_texts(table.find("tyres"), problems_);
        product.surfaces = read_texts(table.find("surfaces"), problems_);
        read_row(table);
        table.reject_unknown_keys();
        belief_.products.push_back(std::move(product));
    }

    // Correlations with the products that stand above this one.
    void read_row(Table& table) {
        static const Spec kEntry =
            make_number_spec("evidence.rolling.product.correlation", -1, 1);
        std::vector<double> row;
        if (const Node* list = table.find("correlation")) {
            for (const Node& item : list->items) {
                row.push_back(read_value(item, kEntry, problems_).value_or(0.0));
            }
        }
        const std::size_t above = belief_.products.size() - 1;
        if (row.size() != above) {
            problems_.add_error(
                table.place(),
                fmt::format("evidence.rolling.product has {} correlations for {} "
                            "products above it",
                            row.size(), above),
                kHint);
        }
        row.resize(above);
        rows_.push_back(std::move(row));
    }

    void fill_correlation(const Place& place) {
        const std::size_t size = belief_.products.size();
        belief_.correlation.assign(size * size, 0.0);
        for (std::size_t i = 0; i < size; ++i) {
            belief_.correlation[i * size + i] = 1.0;
            for (std::size_t j = 0; j < rows_[i].size(); ++j) {
                belief_.correlation[i * size + j + 1] = rows_[i][j];
                belief_.correlation[(j + 1) * size + i] = rows_[i][j];
            }
        }
        const auto check =
            chance::check_correlation(belief_.correlation, static_cast<int>(size));
        if (check.fault == chance::CorrelationFault::kNone) return;
        problems_.add_error(place, "correlations of these products contradict each other",
                            kHint);
    }

    base::ProblemList& problems_;
    RollingBelief belief_;
    std::vector<std::vector<double>> rows_;  // first: the product compared with
};

}  // namespace

std::optional<double> find_scale(Table& table, const char* key) {
    Spec spec = make_number_spec(fmt::format("{}.{}", table.name(), key), 1e-7, .01);
    spec.advice = "write a coefficient like 0.0003";
    return table.find_value(spec);
}

std::optional<RollingBelief> read_belief(Table& table, base::ProblemList& problems) {
    const int before = problems.error_count();
    RollingBelief belief = BeliefReader(problems).read(table);
    if (problems.error_count() > before) return std::nullopt;
    return belief;
}

}  // namespace flattail::scenario

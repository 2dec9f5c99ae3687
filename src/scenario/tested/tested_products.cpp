#include "scenario/tested/tested_products.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "chance/make_distribution.h"
#include "evidence/rolling/pool_tests.h"
#include "input/toml/node_values.h"
#include "scenario/tested/read_belief.h"

namespace flattail::scenario {

namespace {

using evidence::RollingBelief;
using evidence::TestedProduct;
using input::Node;

// mm to either side; hysteresis of neighbouring widths differs by less than tests do.
constexpr double kNearWidth_m = 0.0025;
// Share of the course on coarse road or cobbles from which smooth tests are too few.
constexpr double kRoughShare = 0.2;

constexpr const char* kHowToName =
    "write evidence = { rolling = \"tests.csv\" }, or include what flattail evidence "
    "wrote";

std::optional<RollingBelief> pool_tests(const Node& path, const RollingOptions& options,
                                        base::ProblemList& problems) {
    const int before = problems.error_count();
    if (!path.is(input::NodeKind::kString)) {
        problems.add_error(path.place, "evidence.rolling.tests is no path", kHowToName);
        return std::nullopt;
    }
    const RollingEvidence evidence =
        evidence::pool_file(input::resolve_path(path), options, problems, path.place);
    if (problems.error_count() > before) return std::nullopt;
    for (const Problem& doubt : evidence.warnings) {
        problems.add_warning(doubt.place, doubt.what, doubt.hint);
    }
    for (const RollingTest& test : evidence.tests) {
        if (!test.stands_out) continue;
        problems.add_warning(
            test.place,
            fmt::format("{}, {} stands out: {}", test.source, test.product, test.note),
            "correct it, or write no in a column use");
    }
    return evidence::make_belief(evidence);
}

RollingOptions read_options(Table& table) {
    RollingOptions options;
    options.against = table.find_text("against").value_or("");
    static const Words kMakers{"left out", "discounted", "as stated"};
    if (const auto makers = table.find_word("makers", kMakers)) {
        options.makers = static_cast<MakerRows>(*makers);
    }
    if (const auto between = find_scale(table, "between")) {
        options.between_laboratories = *between;
    }
    if (const auto specimen = find_scale(table, "specimen")) {
        options.specimen_sd = *specimen;
    }
    return options;
}

std::string describe_source(const RollingBelief& belief, const TestedProduct& product) {
    const std::size_t slash = belief.from.find_last_of('/');
    const std::string file = belief.from.substr(slash + 1);
    if (product.tests == 0) return "what others are compared with, " + file;
    return fmt::format("{} test{} by {} laborator{}, {}", product.tests,
                       product.tests == 1 ? "" : "s", product.laboratories,
                       product.laboratories == 1 ? "y" : "ies", file);
}

// A part in use that stands for a product, with the input of its change.
struct Tied {
    InputId input;
    std::size_t product;
};

std::vector<Tied> list_tied(const Model& model, int belief) {
    std::vector<Tied> tied;
    const auto add = [&](const auto& parts) {
        for (const auto& part : parts) {
            if (part.tested_as.belief != belief) continue;
            tied.push_back(
                {part.crr_change, static_cast<std::size_t>(part.tested_as.product)});
        }
    };
    add(model.tyres);
    add(model.inners);
    return tied;
}

double find_rough_share(const course::Course& course) {
    double rough_m = 0.0;
    for (const course::Piece& piece : course.pieces) {
        const bool rough = piece.surface == course::Surface::kCoarse ||
                           piece.surface == course::Surface::kCobbles;
        if (rough) rough_m += piece.length_m;
    }
    return rough_m / course.length_m;
}

bool has_rough_test(const TestedProduct& product) {
    return std::any_of(product.surfaces.begin(), product.surfaces.end(),
                       [](const std::string& surface) {
                           return surface == "coarse" || surface == "cobbles";
                       });
}

// "race 28 mm" was meant by "race" and by "Race 28 mm".
bool is_same_tyre(const std::string& tested, const std::string& ridden) {
    return fold_case(ridden).rfind(fold_case(tested), 0) == 0;
}

}  // namespace

TestedProducts::TestedProducts(const Node* rolling, base::ProblemList& problems) {
    if (!rolling) return;
    if (!rolling->is(input::NodeKind::kArray)) {
        read_entry(*rolling, problems);
        return;
    }
    for (const Node& entry : rolling->items) read_entry(entry, problems);
}

void TestedProducts::read_entry(const Node& entry, base::ProblemList& problems) {
    std::optional<RollingBelief> belief;
    if (entry.is(input::NodeKind::kTable)) {
        Table table(&entry, "evidence.rolling", problems);
        if (const Node* tests = table.find("tests")) {
            belief = pool_tests(*tests, read_options(table), problems);
        } else {
            belief = read_belief(table, problems);
        }
        table.reject_unknown_keys();
    } else {
        belief = pool_tests(entry, {}, problems);
    }
    if (belief) beliefs_.push_back(std::move(*belief));
}

TestedAs TestedProducts::read(Table& part, const Spec& change_spec, Input& change) const {
    const Node* node = part.find("tested_as");
    if (!node) return {};
    base::ProblemList& problems = part.problems();
    const auto name = input::read_text(*node, problems);
    if (!name) return {};
    if (part.find(key_of(change_spec))) {
        problems.add_error(node->place,
                           fmt::format("{0}.{1} and {0}.tested_as are both stated",
                                       part.name(), key_of(change_spec)),
                           "keep one of them");
        return {};
    }
    std::vector<std::string> known;
    for (std::size_t b = 0; b < beliefs_.size(); ++b) {
        for (std::size_t p = 0; p < beliefs_[b].products.size(); ++p) {
            const TestedProduct& product = beliefs_[b].products[p];
            known.push_back(product.name);
            if (fold_case(product.name) != fold_case(*name)) continue;
            const double sd = evidence::find_pair_sd(beliefs_[b], p);
            change = make_input(
                change_spec,
                {chance::make_normal(product.change, sd), {}, Deviation::kNone});
            change.origin = Origin::kFitted;
            change.source = describe_source(beliefs_[b], product);
            change.place = node->place;
            return {static_cast<int>(b), static_cast<int>(p)};
        }
    }
    // Files that could not be read have been reported.
    if (known.empty() && problems.has_errors()) return {};
    const std::string nearest = base::find_nearest_name(*name, known);
    problems.add_error(node->place, fmt::format("no test is of \"{}\"", *name),
                       known.empty()      ? kHowToName
                       : !nearest.empty() ? fmt::format("did you mean \"{}\"?", nearest)
                                          : "write " + list_words(known));
    return {};
}

void TestedProducts::tie_parts(Draft& draft, int belief) const {
    const std::vector<Tied> tied = list_tied(draft.model, belief);
    if (tied.size() < 2) return;
    const RollingBelief& known = beliefs_[static_cast<std::size_t>(belief)];
    if (tied.size() > kMostTogether) {
        draft.problems.add_error({draft.model.file, 0, 0},
                                 fmt::format("{} parts are products of {}, more than {}",
                                             tied.size(), known.from, kMostTogether),
                                 "compare fewer of them in one scenario");
        return;
    }
    Correlation together;
    for (const Tied& row : tied) {
        together.inputs.push_back(row.input);
        for (const Tied& column : tied) {
            const bool same = row.input.index == column.input.index;
            together.matrix.push_back(same ? 1.0
                                           : evidence::find_pair_correlation(
                                                 known, row.product, column.product));
        }
    }
    draft.model.correlations.push_back(std::move(together));
}

void TestedProducts::warn_of_mismatch(Draft& draft, const Setup& setup,
                                      const Wheel& wheel, const TestedAs& tested) const {
    if (tested.belief < 0) return;
    const RollingBelief& belief = beliefs_[static_cast<std::size_t>(tested.belief)];
    const TestedProduct& product =
        belief.products[static_cast<std::size_t>(tested.product)];
    const Tyre& tyre = draft.model.tyres[static_cast<std::size_t>(wheel.tyre)];
    const auto warn = [&](const std::string& what) {
        const std::string text =
            fmt::format("{}: {} was tested {}", setup.name, product.name, what);
        draft.problems.add_warning({draft.model.file, 0, 0}, text,
                                   "look for tests nearer to what you ride");
    };
    const auto& widths = product.widths_m;
    const bool is_near =
        widths.empty() || (tyre.width_m > widths.front() - kNearWidth_m &&
                           tyre.width_m < widths.back() + kNearWidth_m);
    if (!is_near) {
        warn(fmt::format("at {:g} to {:g} mm, here it is {:g} mm", 1e3 * widths.front(),
                         1e3 * widths.back(), 1e3 * tyre.width_m));
    }
    const bool is_tyre_known =
        product.tyres.empty() || std::any_of(product.tyres.begin(), product.tyres.end(),
                                             [&](const std::string& name) {
                                                 return is_same_tyre(name, tyre.name);
                                             });
    if (!is_tyre_known) {
        warn(fmt::format("in {}, here it is in {}", fmt::join(product.tyres, ", "),
                         tyre.name));
    }
    if (product.surfaces.empty() || has_rough_test(product)) return;
    const double rough = find_rough_share(*draft.model.course);
    if (rough > kRoughShare) {
        warn(fmt::format("on {}, {:.0f} % of this course is rougher",
                         fmt::join(product.surfaces, ", "), 100.0 * rough));
    }
}

void TestedProducts::finish(Draft& draft) const {
    if (beliefs_.empty() || draft.problems.has_errors()) return;
    for (std::size_t b = 0; b < beliefs_.size(); ++b) {
        tie_parts(draft, static_cast<int>(b));
    }
    for (const Setup& setup : draft.model.setups) {
        for (const Wheel& wheel : setup.wheels) {
            const auto& tyre = draft.model.tyres[static_cast<std::size_t>(wheel.tyre)];
            const auto& inner = draft.model.inners[static_cast<std::size_t>(wheel.inner)];
            warn_of_mismatch(draft, setup, wheel, tyre.tested_as);
            warn_of_mismatch(draft, setup, wheel, inner.tested_as);
        }
    }
}

}  // namespace flattail::scenario

#include "scenario/values/stated_value.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "chance/distribution.h"
#include "chance/make_distribution.h"
#include "input/toml/node_values.h"
#include "scenario/values/move_distribution.h"
#include "scenario/values/sample_rows.h"
#include "scenario/values/table.h"

namespace flattail::scenario {

namespace {

using chance::quantile;
using input::Dimension;
using input::Node;

constexpr const char* kForms =
    "write a plain quantity, { mean, sd }, { median, spread }, { low, high }, "
    "{ low, mid, high } or { samples = \"file.csv\" }";

// Tails that hold less than this are left alone: no study draws that many days.
constexpr double kNegligibleTail = 1e-12;

Dimension step_of(Dimension dimension) {
    if (dimension == Dimension::kTemperature) return Dimension::kTemperatureDifference;
    if (dimension == Dimension::kDirection) return Dimension::kAngle;
    return dimension;
}

bool is_logarithmic(Shape shape) {
    return shape == Shape::kLognormal || shape == Shape::kSplitLognormal;
}

// Cuts off what lies outside the limits where a noticeable share does.
Distribution cut_to(Distribution d, double least, double most) {
    if (d.shape == Shape::kPoint || d.shape == Shape::kSamples) return d;
    const bool below = chance::cdf(d, least) > kNegligibleTail;
    const bool above = 1.0 - chance::cdf(d, most) > kNegligibleTail;
    return chance::cut_distribution(std::move(d), below ? least : -HUGE_VAL,
                                    above ? most : HUGE_VAL);
}

// One layer of luck about its middle.
StatedValue spread_by_luck(const Distribution& d, double least, double most) {
    if (d.shape == Shape::kPoint) return make_stated_point(d.a);
    if (is_logarithmic(d.shape)) {
        StatedValue value = make_stated_point(std::exp(d.a));
        value.luck = cut_to(scale_distribution(d, 1.0 / value.knowledge.a),
                            least / value.knowledge.a, most / value.knowledge.a);
        value.deviation = Deviation::kMultiply;
        return value;
    }
    const bool movable = d.shape != Shape::kBeta && d.shape != Shape::kGamma;
    const double middle = movable ? quantile(d, 0.5) : 0.0;
    StatedValue value = make_stated_point(middle);
    value.luck = shift_distribution(d, -middle);
    if (movable) value.luck = cut_to(value.luck, least - middle, most - middle);
    value.deviation = Deviation::kAdd;
    return value;
}

StatedValue spread_by_layer(const Distribution& d, const Spec& spec, Layer layer) {
    const double least = to_si(spec.unit, spec.least);
    const double most = to_si(spec.unit, spec.most);
    if (layer == Layer::kLuck) return spread_by_luck(d, least, most);
    StatedValue value;
    const bool cuttable = d.shape != Shape::kBeta && d.shape != Shape::kGamma;
    value.knowledge = cuttable ? cut_to(d, least, most) : d;
    return value;
}

// Reads one table that states a distribution.
class Statement {
  public:
    Statement(const Node& node, const Spec& spec, base::ProblemList& problems)
        : table_(&node, spec.name, problems),
          spec_(spec),
          problems_(problems),
          errors_before_(problems.error_count()) {}

    std::optional<StatedValue> read() {
        const Layer layer = read_layer();
        // Says what the numbers were learned from; read where the value's origin is.
        table_.find_text("fitted_to");
        const std::optional<StatedValue> value = read_form(layer);
        table_.reject_unknown_keys();
        return problems_.error_count() == errors_before_ ? value : std::nullopt;
    }

  private:
    Layer read_layer() {
        static const Words kKinds = {"changes each day", "not known", "luck",
                                     "knowledge"};
        const auto kind = table_.find_word("kind", kKinds);
        if (!kind) return spec_.layer;
        return *kind % 2 == 0 ? Layer::kLuck : Layer::kKnowledge;
    }

    std::optional<StatedValue> read_form(Layer layer) {
        const bool mean = has("mean"), sd = has("sd"), median = has("median"),
                   spread = has("spread"), low = has("low"), mid = has("mid"),
                   high = has("high"), flats = has("flats"), distance = has("distance");
        const int stated = mean + sd + median + spread + low + mid + high + flats;
        if (mean && sd && stated == 2) return read_about("mean", layer);
        if (median && spread && stated == 2) return read_about("median", layer);
        if (low && high && stated == (mid ? 3 : 2)) return read_range(layer);
        if (flats && distance && stated == 1) return read_count();
        if (has("samples") && stated == 0) return read_rows(layer);
        return fail("does not state a value", kForms);
    }

    // { mean, sd } and { median, spread }, whose middle may itself be uncertain.
    std::optional<StatedValue> read_about(const std::string& middle, Layer layer) {
        const Node& centre_node = *table_.find(middle);
        const bool nested = centre_node.is(input::NodeKind::kTable);
        if (nested && centre_node.find("samples")) {
            return fail("has samples inside a spread", "write { samples } alone");
        }
        if (middle == "median" && spec_.scale == Scale::kSigned) {
            return fail("cannot be spread by a factor (it may be zero or negative)",
                        "write { mean, sd } or { low, high }");
        }
        const auto centre = read_centre(centre_node);
        const auto width = middle == "mean" ? read_sd() : read_spread();
        if (!centre || !width) return std::nullopt;
        if (nested) return add_luck(*centre, middle, *width);
        return check_single(middle == "mean"
                                ? make_about_mean(centre->knowledge.a, *width)
                                : make_about_median(centre->knowledge.a, *width),
                            layer);
    }

    std::optional<StatedValue> read_centre(const Node& node) {
        Spec inner = spec_;
        inner.layer = Layer::kKnowledge;
        const auto centre = read_stated_value(node, inner, problems_);
        if (centre && centre->deviation != Deviation::kNone) {
            return fail("has luck inside luck",
                        "let the inner table be kind = \"not known\"");
        }
        return centre;
    }

    static Distribution make_about_mean(double mean, double sd) {
        return sd > 0.0 ? chance::make_normal(mean, sd) : chance::make_point(mean);
    }

    static Distribution make_about_median(double median, double spread) {
        return spread > 1.0 ? chance::make_lognormal_median_spread(median, spread)
                            : chance::make_point(median);
    }

    std::optional<double> read_sd() {
        const Node& node = *table_.find("sd");
        const auto sd = input::read_quantity(node, step_of(spec_.dimension), problems_);
        if (sd && *sd < 0.0) {
            table_.add_error(node, spec_.name + ": sd is negative", "write its size");
            return std::nullopt;
        }
        return sd;
    }

    std::optional<double> read_spread() {
        constexpr double kWidest = 10.0;
        const Node& node = *table_.find("spread");
        const auto spread = input::read_quantity(node, Dimension::kNumber, problems_);
        if (!spread || (*spread >= 1.0 && *spread <= kWidest)) return spread;
        table_.add_error(
            node, fmt::format("{}: spread is {}", spec_.name, write_number(*spread)),
            "write a factor from 1 to 10: two thirds of all lie between median / spread "
            "and median x spread");
        return std::nullopt;
    }

    std::optional<StatedValue> add_luck(StatedValue centre, const std::string& middle,
                                        double width) {
        const bool add = middle == "mean";
        if (width <= (add ? 0.0 : 1.0)) return centre;
        centre.deviation = add ? Deviation::kAdd : Deviation::kMultiply;
        centre.luck = add ? chance::make_normal(0.0, width)
                          : chance::make_lognormal_median_spread(1.0, width);
        if (!add) return centre;
        // Two layers cannot be cut to a limit together, so their far tails must keep it.
        constexpr double kFar = 1e-7;
        const double least = to_si(spec_.unit, spec_.least);
        const double most = to_si(spec_.unit, spec_.most);
        const bool inside =
            quantile(centre.knowledge, kFar) + quantile(centre.luck, kFar) >= least &&
            quantile(centre.knowledge, 1 - kFar) + quantile(centre.luck, 1 - kFar) <=
                most;
        if (inside) return centre;
        return fail(fmt::format("is spread so wide that some days would lie outside {} "
                                "to {} {}",
                                write_number(spec_.least), write_number(spec_.most),
                                spec_.unit.name),
                    "write smaller spreads, or { median, spread }");
    }

    std::optional<StatedValue> read_range(Layer layer) {
        const auto low = number("low");
        const auto mid = has("mid") ? number("mid") : low;
        const auto high = number("high");
        static const Words kShapes = {"normal", "lognormal", "uniform", "beta"};
        const auto shape = table_.find_word("shape", kShapes);
        if (!low || !mid || !high) return std::nullopt;
        if (!(*low < *high) || (has("mid") && !(*low < *mid && *mid < *high))) {
            return fail("has a range that does not rise", "write low < mid < high");
        }
        // A factor needs a zero to start from, a chance has two ends.
        if (shape && ((*shape == 1 && spec_.scale == Scale::kSigned) ||
                      (*shape == 3 && spec_.scale != Scale::kChance))) {
            return fail(fmt::format("cannot be {}", kShapes[*shape]),
                        "leave `shape` out, or write \"normal\" or \"uniform\"");
        }
        const auto distribution = has("mid") ? make_skewed({*low, *mid, *high}, shape)
                                             : make_symmetric({*low, *high}, shape);
        if (!distribution) {
            return fail("cannot take this shape over this range",
                        "leave `shape` out, or keep low above zero");
        }
        return check_single(*distribution, layer);
    }

    std::optional<Distribution> make_skewed(const chance::SkewedRange90& range,
                                            std::optional<std::size_t> shape) {
        const bool logs = shape ? *shape == 1 : prefers_logs(range.low);
        if ((shape && *shape > 1) || (logs && range.low <= 0.0)) return std::nullopt;
        return logs ? chance::make_split_lognormal(range)
                    : chance::make_split_normal(range);
    }

    std::optional<Distribution> make_symmetric(const chance::Range90& range,
                                               std::optional<std::size_t> shape) {
        constexpr double kOutside = 0.05;  // on each side of a 90 % range
        if (!shape && spec_.scale == Scale::kChance && range.low > 0 && range.high < 1) {
            if (auto beta = chance::make_beta_from_range(range)) return beta;
        }
        const std::size_t chosen = shape ? *shape : prefers_logs(range.low) ? 1 : 0;
        if (chosen == 0) return chance::make_normal_from_range(range);
        if (chosen == 1) {
            if (range.low <= 0.0) return std::nullopt;
            return chance::make_lognormal_from_range(range);
        }
        if (chosen == 2) {
            const double rest =
                (range.high - range.low) * kOutside / (1.0 - 2.0 * kOutside);
            return chance::make_uniform(range.low - rest, range.high + rest);
        }
        if (range.low <= 0.0 || range.high >= 1.0) return std::nullopt;
        return chance::make_beta_from_range(range);
    }

    bool prefers_logs(double low) const {
        return spec_.scale == Scale::kPositive && low > 0.0;
    }

    // n flats over a distance, before which nothing was known: Jeffreys' prior for a
    // Poisson rate, gamma with shape n + 1/2.
    std::optional<StatedValue> read_count() {
        if (spec_.dimension != Dimension::kRatePerDistance) {
            return fail("is no rate that could be counted", kForms);
        }
        const Node& flats_node = *table_.find("flats");
        const auto flats = input::read_whole_number(flats_node, problems_);
        const Node& distance_node = *table_.find("distance");
        const auto distance_m =
            input::read_quantity(distance_node, Dimension::kLength, problems_);
        if (!flats || !distance_m) return std::nullopt;
        if (*flats < 0 || *distance_m <= 0.0) {
            return fail("counts a negative number or over no distance",
                        "write { flats = 3, distance = \"4000 km\" }");
        }
        const double shape = static_cast<double>(*flats) + 0.5;
        StatedValue value;
        value.knowledge = chance::make_gamma(shape / *distance_m, 1.0 / std::sqrt(shape));
        const double middle = quantile(value.knowledge, 0.5);
        if (!check_limits(middle, spec_, distance_node.place, problems_)) {
            return std::nullopt;
        }
        return value;
    }

    std::optional<StatedValue> read_rows(Layer layer) {
        const Node& file = *table_.find("samples");
        const auto rows = read_sample_rows(file, table_.find("column"), spec_, problems_);
        if (!rows) return std::nullopt;
        StatedValue value =
            spread_by_layer(chance::make_samples(rows->values), spec_, layer);
        value.draw_name = rows->draw_name;
        value.file = rows->file;
        return value;
    }

    std::optional<StatedValue> check_single(const Distribution& d, Layer layer) {
        for (const double share : {0.05, 0.5, 0.95}) {
            if (!check_limits(quantile(d, share), spec_, table_.place(), problems_)) {
                return std::nullopt;
            }
        }
        return spread_by_layer(d, spec_, layer);
    }

    std::optional<double> number(const std::string& key) {
        return input::read_quantity(*table_.find(key), spec_.dimension, problems_);
    }

    bool has(const std::string& key) { return table_.find(key) != nullptr; }

    std::optional<StatedValue> fail(const std::string& what, const std::string& hint) {
        problems_.add_error(table_.place(), spec_.name + ' ' + what, hint);
        return std::nullopt;
    }

    Table table_;
    const Spec& spec_;
    base::ProblemList& problems_;
    int errors_before_;
};

double combine(double centre, double luck, Deviation deviation) {
    return deviation == Deviation::kMultiply ? centre * luck : centre + luck;
}

}  // namespace

StatedValue make_stated_point(double value) {
    StatedValue stated;
    stated.knowledge = chance::make_point(value);
    return stated;
}

std::optional<StatedValue> read_stated_value(const Node& node, const Spec& spec,
                                             base::ProblemList& problems) {
    if (node.is(input::NodeKind::kTable)) return Statement(node, spec, problems).read();
    const auto value = read_value(node, spec, problems);
    if (!value) return std::nullopt;
    return make_stated_point(*value);
}

StatedValue make_usual_value(const Spec& spec) {
    const Usual& usual = spec.usual;
    const chance::SkewedRange90 range = {to_si(spec.unit, usual.low),
                                         to_si(spec.unit, usual.mid),
                                         to_si(spec.unit, usual.high)};
    if (usual.form == Form::kCertain) return make_stated_point(range.mid);
    return spread_by_layer(usual.form == Form::kLognormalRange
                               ? chance::make_split_lognormal(range)
                               : chance::make_split_normal(range),
                           spec, spec.layer);
}

Summary summarise(const Distribution& knowledge, const Distribution& luck,
                  Deviation deviation) {
    const auto at = [&](double k, double l) {
        return combine(quantile(knowledge, k),
                       deviation == Deviation::kNone ? 0.0 : quantile(luck, l),
                       deviation);
    };
    const auto with_one_layer = [&](double share) {
        return knowledge.shape == Shape::kPoint ? at(0.5, share) : at(share, 0.5);
    };
    const bool one_layer =
        deviation == Deviation::kNone || knowledge.shape == Shape::kPoint;
    if (one_layer) {
        return {with_one_layer(0.05), with_one_layer(0.5), with_one_layer(0.95)};
    }
    constexpr std::size_t kGrid = 100;
    std::vector<double> values;
    for (std::size_t i = 0; i < kGrid; ++i) {
        for (std::size_t j = 0; j < kGrid; ++j) {
            values.push_back(at((static_cast<double>(i) + 0.5) / kGrid,
                                (static_cast<double>(j) + 0.5) / kGrid));
        }
    }
    std::sort(values.begin(), values.end());
    return {values[values.size() / 20], values[values.size() / 2],
            values[values.size() - values.size() / 20]};
}

}  // namespace flattail::scenario

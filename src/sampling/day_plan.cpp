#include "sampling/day_plan.h"

#include <algorithm>

#include "base/expects.h"
#include "base/lane_normal.h"
#include "sampling/address.h"
#include "sampling/vector_math.h"

namespace flattail::sampling {

namespace {

// Draw numbers within an input's stream.
constexpr std::uint32_t kKnowledgeDraw = 0;
constexpr std::uint32_t kLuckDraw = 1;

// Gust ratio G = 1 + 3 I for turbulence intensity I (common practice: three standard
// deviations of the wind make the gust).
constexpr double kGustSds = 3.0;

double find_gust_sd(const scenario::Weather& weather) {
    return std::max(weather.gust_ratio - 1.0, 0.0) / kGustSds;
}

void combine(Deviation deviation, const double* luck, double* value) {
    if (deviation == Deviation::kAdd) {
        for (int j = 0; j < kLanes; ++j) value[j] += luck[j];
    } else if (deviation == Deviation::kMultiply) {
        for (int j = 0; j < kLanes; ++j) value[j] *= luck[j];
    }
}

// Rows of a file have no order of their own: a row's score is that of its value's rank,
// values that are alike sharing the middle of their ranks.
std::vector<double> score_rows(const Distribution& distribution) {
    if (distribution.shape != Shape::kSamples) return {};
    std::vector<double> sorted = distribution.table, score;
    std::sort(sorted.begin(), sorted.end());
    const auto count = static_cast<double>(sorted.size());
    for (const double value : distribution.table) {
        const auto [first, last] = std::equal_range(sorted.begin(), sorted.end(), value);
        const auto middle =
            0.5 * static_cast<double>((first - sorted.begin()) + (last - sorted.begin()));
        score.push_back(base::lane::normal_quantile(middle / count));
    }
    return score;
}

bool is_point(const Distribution& distribution) {
    return distribution.shape == Shape::kPoint;
}

}  // namespace

DayPlan::DayPlan(const scenario::Model& model, const RoadHazard& road,
                 std::vector<double> mark_m, const DayPlanOptions& options)
    : seed_(options.seed),
      math_(&vector_math(options.instructions)),
      mark_m_(std::move(mark_m)),
      bad_day_chance_(model.rider.bad_day_chance),
      power_("rider.power_variation", model.rider.power_variation_sd,
             model.rider.power_variation_length_m, road.length_m()),
      wind_("weather.gusts", find_gust_sd(model.weather), model.weather.gust_length_m,
            road.length_m()),
      flats_(model, road, options.seed, options.grouped_days, *math_) {
    for (const Input& input : model.inputs) {
        CompiledInput compiled;
        compiled.deviation = input.deviation;
        if (is_point(input.knowledge)) {
            compiled.centre = input.knowledge.a;
        } else {
            compiled.knowledge.emplace(
                CompiledLayer{Sampler(input.knowledge, *math_),
                              find_stream(input, input.knowledge, kKnowledgeDraw),
                              score_rows(input.knowledge)});
        }
        if (input.deviation != Deviation::kNone) {
            compiled.luck.emplace(CompiledLayer{Sampler(input.luck, *math_),
                                                find_stream(input, input.luck, kLuckDraw),
                                                {}});
        }
        inputs_.push_back(std::move(compiled));
    }
    for (const scenario::Correlation& together : model.correlations) join(together);
}

void DayPlan::join(const scenario::Correlation& together) {
    FLATTAIL_EXPECTS(together.inputs.size() <= scenario::kMostTogether);
    Group group{
        CorrelatedScores(together.matrix, static_cast<int>(together.inputs.size())), {}};
    for (const InputId id : together.inputs) {
        CompiledInput& input = inputs_[static_cast<std::size_t>(id.index)];
        auto& layer = together.layer == Layer::kLuck ? input.luck : input.knowledge;
        FLATTAIL_EXPECTS(layer && layer->seat.group < 0);
        layer->seat = {static_cast<int>(groups_.size()),
                       static_cast<int>(group.streams.size())};
        group.streams.push_back(layer->stream);
    }
    groups_.push_back(std::move(group));
}

// Rows of one file share their address, all else has its own.
Stream DayPlan::find_stream(const Input& input, const Distribution& layer,
                            std::uint32_t draw) const {
    const bool shares = layer.shape == Shape::kSamples && !input.draw_name.empty();
    return {seed_, hash_input_name(shares ? input.draw_name : input.name), draw};
}

DayBlock DayPlan::make_block() const {
    DayBlock block;
    block.values.resize(inputs_.size() * kLanes);
    block.power_factor.resize(mark_m_.size() * kLanes);
    block.wind_factor.resize(mark_m_.size() * kLanes);
    for (std::size_t i = 0; i < inputs_.size(); ++i) {
        double* out = block.values.data() + i * kLanes;
        std::fill(out, out + kLanes, inputs_[i].centre);
    }
    return block;
}

// A member of a group is found by drawing the whole group: few inputs are in one, and no
// block has to remember the others.
void DayPlan::fill_scores(const CompiledLayer& layer, std::uint64_t first_day,
                          double* out) const {
    if (!layer.row_score.empty()) {
        math_->fill_uniform(layer.stream, first_day, out);
        const auto rows = static_cast<double>(layer.row_score.size());
        for (int j = 0; j < kLanes; ++j) {
            out[j] = layer.row_score[static_cast<std::size_t>(rows * out[j])];
        }
        return;
    }
    if (layer.seat.group < 0) {
        math_->fill_normal(layer.stream, first_day, out);
        return;
    }
    const Group& group = groups_[static_cast<std::size_t>(layer.seat.group)];
    double scores[scenario::kMostTogether][kLanes];
    double* rows[scenario::kMostTogether];
    for (std::size_t i = 0; i < group.streams.size(); ++i) {
        rows[i] = scores[i];
        math_->fill_normal(group.streams[i], first_day, rows[i]);
    }
    group.scores.apply(rows);
    std::copy_n(rows[layer.seat.place], kLanes, out);
}

void DayPlan::fill_layer(const CompiledLayer& layer, std::uint64_t first_day,
                         double* out) const {
    if (layer.seat.group < 0) {
        layer.sampler.fill(layer.stream, first_day, out);
        return;
    }
    fill_scores(layer, first_day, out);
    layer.sampler.fill_from_scores(out, out);
}

void DayPlan::fill_input(const CompiledInput& input, std::uint64_t first_day,
                         double* out) const {
    if (input.knowledge) {
        fill_layer(*input.knowledge, first_day, out);
    } else {
        std::fill(out, out + kLanes, input.centre);
    }
    if (!input.luck) return;
    double luck[kLanes];
    fill_layer(*input.luck, first_day, luck);
    combine(input.deviation, luck, out);
}

void DayPlan::fill_values(std::uint64_t first_day, DayBlock& block) const {
    block.first_day = first_day;
    for (std::size_t i = 0; i < inputs_.size(); ++i) {
        if (!inputs_[i].knowledge && !inputs_[i].luck) continue;
        fill_input(inputs_[i], first_day, block.values.data() + i * kLanes);
    }
}

void DayPlan::fill(std::uint64_t first_day, DayBlock& block) const {
    fill_values(first_day, block);
    power_.fill(seed_, first_day, mark_m_, *math_, block.power_factor.data());
    wind_.fill(seed_, first_day, mark_m_, *math_, block.wind_factor.data());
    fill_bad_days(first_day, block);
    flats_.fill(block);
}

void DayPlan::fill_bad_days(std::uint64_t first_day, DayBlock& block) const {
    static const std::uint32_t stream = hash_input_name("rider.bad_day");
    double u[kLanes];
    math_->fill_uniform(Stream{seed_, stream, 0}, first_day, u);
    const double* chance = block.of(bad_day_chance_);
    for (std::size_t j = 0; j < kLanes; ++j)
        block.bad_day[j] = u[j] < chance[j] ? 1.0 : 0.0;
}

void DayPlan::fill_knowledge_scores(InputId input, std::uint64_t first_day,
                                    double* out) const {
    const CompiledInput& compiled = inputs_[static_cast<std::size_t>(input.index)];
    FLATTAIL_EXPECTS(compiled.knowledge.has_value());
    fill_scores(*compiled.knowledge, first_day, out);
}

std::vector<InputId> DayPlan::knowledge_inputs() const {
    std::vector<InputId> unknown;
    for (std::size_t i = 0; i < inputs_.size(); ++i) {
        if (inputs_[i].knowledge) unknown.push_back(InputId{static_cast<int>(i)});
    }
    return unknown;
}

}  // namespace flattail::sampling

// Inputs that are drawn together: the copula of a scenario acts on the days.
#include "sampling/day_plan.h"

#include <algorithm>
#include <cmath>

#include "chance/make_distribution.h"
#include "statistical_checks.h"
#include "support/catch.h"
#include "support/model_builder.h"

using namespace flattail;

namespace {

constexpr std::uint64_t kBlocks = 400;
constexpr double kTogether = 0.6;

// Power and drag area not known, tied or not; mass not known and never tied.
scenario::Model make_model(bool tied) {
    scenario::Model model = support::make_plain_model(10000.0);
    const auto open = [&](InputId id, double median) {
        model.inputs[static_cast<std::size_t>(id.index)].knowledge =
            chance::make_lognormal_median_spread(median, 1.1);
    };
    open(model.rider.power_w, 200.0);
    open(model.rider.drag_area_m2, 0.27);
    open(model.rider.mass_kg, 70.0);
    if (tied) {
        model.correlations = {{{model.rider.power_w, model.rider.drag_area_m2},
                               Layer::kKnowledge,
                               {1.0, kTogether, kTogether, 1.0}}};
    }
    return model;
}

template <class Visit>
void visit_days(const scenario::Model& model, const Visit& visit) {
    course::Segment road;
    road.length_m = 10000.0;
    const sampling::RoadHazard hazard({road}, 3.0);
    const sampling::DayPlan plan(model, hazard, {5000.0}, {});
    sampling::DayBlock block = plan.make_block();
    for (std::uint64_t b = 0; b < kBlocks; ++b) {
        plan.fill_values(b * sampling::kLanes, block);
        visit(plan, block);
    }
}

// Normal scores have mean 0 and variance 1, so the mean product is the correlation.
double measure_correlation(const scenario::Model& model) {
    double sum = 0.0;
    visit_days(model, [&](const sampling::DayPlan&, const sampling::DayBlock& block) {
        const double* power = block.of(model.rider.power_w);
        const double* area = block.of(model.rider.drag_area_m2);
        const double scale = std::log(1.1) * std::log(1.1);
        for (int j = 0; j < sampling::kLanes; ++j)
            sum += std::log(power[j] / 200.0) * std::log(area[j] / 0.27) / scale;
    });
    return sum / double(kBlocks * sampling::kLanes);
}

// Null: correlation kTogether. The product of two such scores has variance 1 + r^2.
bool is_tied(double measured) {
    const double error =
        std::sqrt((1.0 + kTogether * kTogether) / double(kBlocks * sampling::kLanes));
    return std::abs(measured - kTogether) < 4.9 * error;
}

}  // namespace

TEST_CASE("inputs that are drawn together have the correlation that was asked for") {
    CHECK(is_tied(measure_correlation(make_model(true))));
    // The twin: drawn apart.
    CHECK_FALSE(is_tied(measure_correlation(make_model(false))));
}

TEST_CASE("drawing two inputs together moves no other input and not the first") {
    const scenario::Model tied = make_model(true), apart = make_model(false);
    std::vector<double> seen;
    visit_days(apart, [&](const sampling::DayPlan&, const sampling::DayBlock& block) {
        seen.push_back(block.of(apart.rider.mass_kg)[7]);
        seen.push_back(block.of(apart.rider.power_w)[7]);
    });
    std::size_t at = 0;
    visit_days(tied, [&](const sampling::DayPlan&, const sampling::DayBlock& block) {
        REQUIRE(block.of(tied.rider.mass_kg)[7] == seen[at++]);
        REQUIRE(block.of(tied.rider.power_w)[7] == Approx(seen[at++]).epsilon(1e-12));
    });
}

namespace {

// Two columns of one file: mass falls as power rises, but for one odd row.
const std::vector<double> kPowers{240, 180, 200, 260, 220};
const std::vector<double> kMasses{62, 90, 80, 85, 70};

scenario::Model make_sampled(const std::string& power_rows,
                             const std::string& mass_rows) {
    scenario::Model model = support::make_plain_model(10000.0);
    const auto sample = [&](InputId id, const std::vector<double>& values,
                            const std::string& rows) {
        Input& input = model.inputs[static_cast<std::size_t>(id.index)];
        input.knowledge = chance::make_samples(values);
        input.draw_name = rows;
    };
    sample(model.rider.power_w, kPowers, power_rows);
    sample(model.rider.mass_kg, kMasses, mass_rows);
    return model;
}

// How often each pair of rows was drawn: [row of power][row of mass].
std::vector<int> count_pairs(const scenario::Model& model) {
    const std::size_t rows = kPowers.size();
    std::vector<int> counts(rows * rows);
    const auto find = [](const std::vector<double>& values, double value) {
        return static_cast<std::size_t>(std::find(values.begin(), values.end(), value) -
                                        values.begin());
    };
    visit_days(model, [&](const sampling::DayPlan&, const sampling::DayBlock& block) {
        for (int j = 0; j < sampling::kLanes; ++j) {
            const std::size_t p = find(kPowers, block.of(model.rider.power_w)[j]);
            const std::size_t m = find(kMasses, block.of(model.rider.mass_kg)[j]);
            ++counts[p * rows + m];
        }
    });
    return counts;
}

int count_off_diagonal(const std::vector<int>& counts) {
    int off = 0;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        off += i / kPowers.size() == i % kPowers.size() ? 0 : counts[i];
    }
    return off;
}

}  // namespace

TEST_CASE("values of one file are drawn row by row, each row as often") {
    const std::vector<int> counts = count_pairs(make_sampled("samples f", "samples f"));
    CHECK(count_off_diagonal(counts) == 0);
    std::vector<int> rows;
    for (std::size_t i = 0; i < kPowers.size(); ++i) {
        rows.push_back(counts[i * kPowers.size() + i]);
    }
    CHECK(test::is_even(rows));
    // The twin: two files are drawn apart, all pairs as often.
    const std::vector<int> apart = count_pairs(make_sampled("samples f", "samples g"));
    CHECK(count_off_diagonal(apart) > 0);
    CHECK(test::is_even(apart));
}

TEST_CASE("a row's score is that of its value's rank") {
    const scenario::Model model = make_sampled("samples f", "samples f");
    visit_days(
        model, [&](const sampling::DayPlan& plan, const sampling::DayBlock& block) {
            double z[sampling::kLanes];
            plan.fill_knowledge_scores(model.rider.power_w, block.first_day, z);
            for (int j = 0; j < sampling::kLanes; ++j) {
                // Ranks of 180, 200 ... 260: shares .1, .3, .5, .7, .9 of a normal.
                const double share = (block.of(model.rider.power_w)[j] - 170.0) / 100.0;
                REQUIRE(0.5 * std::erfc(-z[j] / std::sqrt(2.0)) ==
                        Approx(share).epsilon(1e-9));
            }
        });
}

TEST_CASE("the scores told for a tied input are those of its values") {
    const scenario::Model model = make_model(true);
    visit_days(
        model, [&](const sampling::DayPlan& plan, const sampling::DayBlock& block) {
            double z[sampling::kLanes];
            plan.fill_knowledge_scores(model.rider.drag_area_m2, block.first_day, z);
            for (int j = 0; j < sampling::kLanes; ++j) {
                REQUIRE(0.27 * std::exp(std::log(1.1) * z[j]) ==
                        Approx(block.of(model.rider.drag_area_m2)[j]).epsilon(1e-12));
            }
        });
}

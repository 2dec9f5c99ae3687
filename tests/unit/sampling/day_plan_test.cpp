// Inputs that are drawn together: the copula of a scenario acts on the days.
#include "sampling/day_plan.h"

#include <cmath>

#include "chance/make_distribution.h"
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

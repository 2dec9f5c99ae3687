// The whole study, through the public face, against a case with exact answers: 90 km at a
// constant 34 km/h, one flat per 1500 km, lognormal repairs (median 300 s, log-sd .35),
// two spares, the third flat ends the race. Exact figures: quadrature (mpmath),
// convolution (FFT) and the R package actuar agree on them to all digits given.
//
// Null: the study samples this distribution. Every figure must lie within 4.9 of its own
// standard errors: a false alarm has chance 1e-6 per figure. Fixed seeds.
#include <cmath>

#include "flattail/study.h"
#include "support/catch.h"

namespace {

using namespace flattail;

constexpr double kSigmas = 4.9;
constexpr double kRidingS = 9529.411764706;
constexpr double kFlat = 1.0 - 0.941764533584;
constexpr double kTwoFlats = 0.00169517616045 + 3.3903523209e-5 + 5.2e-7;  // 2 and more
constexpr double kNoFinish = 3.44182402447e-5;

Findings study(DrawKind draw, const std::vector<std::string>& settings = {}) {
    const std::string file =
        std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/exact_flats.toml";
    StudyOptions options;
    options.races = 1'000'000;
    options.seed = 20261125;
    options.draw = draw;
    return run_study(read_scenario({file, settings}), options);
}

bool is_within(const Figure& figure, double exact) {
    return std::abs(figure.value - exact) <= kSigmas * figure.standard_error;
}

const PercentileRow& find_row(const SetupFindings& setup, double percent) {
    for (const PercentileRow& row : setup.percentiles) {
        if (row.percent == percent) return row;
    }
    throw std::logic_error("no such percentile");
}

// The printed 95 % interval, stretched from 1.96 to 4.9 standard errors.
bool covers(const PercentileRow& row, double exact) {
    const double stretch = kSigmas / 1.96;
    const double low = row.time_s - stretch * (row.time_s - row.interval_s.low);
    const double high = row.time_s + stretch * (row.interval_s.high - row.time_s);
    return low <= exact && exact <= high;
}

// No finish counts as +infinity in percentiles.
void check_percentiles(const SetupFindings& setup) {
    CHECK(covers(find_row(setup, 95.0), 9736.797844742));
    CHECK(covers(find_row(setup, 99.0), 9961.469373451));
    CHECK(covers(find_row(setup, 99.9), 10228.97303071));
}

// Judged time: a day without a finish counts as the typical finish + 1 h.
double exact_mean_judged() {
    return 9548.51628716 * (1.0 - kNoFinish) + (kRidingS + 3600.0) * kNoFinish;
}

void check_all(const SetupFindings& setup) {
    CHECK(setup.typical_s == Approx(kRidingS).epsilon(1e-9));
    CHECK(is_within(setup.flat, kFlat));
    CHECK(is_within(setup.two_flats, kTwoFlats));
    CHECK(is_within(setup.flats_per_race, 0.06 - 1.0e-6));
    CHECK(is_within(setup.no_finish, kNoFinish));
    CHECK(is_within(setup.mean_judged_s, exact_mean_judged()));
    // Losing 300 s or more, or not finishing.
    CHECK(is_within(setup.lose_long, 0.0299459008536 + kNoFinish));
    check_percentiles(setup);
}

}  // namespace

TEST_CASE("the study meets the exact flat example, stratified", "[slow]") {
    const Findings found = study(DrawKind::kStratified);
    for (const SetupFindings& setup : found.setups) check_all(setup);
    // The rare figure is what stratifying is for: below 1 % of its value.
    const Figure& no_finish = found.setups.front().no_finish;
    CHECK(no_finish.standard_error < 0.01 * no_finish.value);
}

// Mean share of days with a flat over many studies of one block and a half.
double average_flats(std::int64_t races, int studies) {
    const Scenario scenario = read_scenario(
        {FLATTAIL_SOURCE_DIR "/tests/support/scenarios/exact_flats.toml", {}});
    double sum = 0.0;
    for (int i = 0; i < studies; ++i) {
        StudyOptions options;
        options.races = races;
        options.seed = static_cast<std::uint64_t>(i + 1);
        options.threads = 1;
        sum += run_study(scenario, options).setups.front().flat.value;
    }
    return sum / studies;
}

TEST_CASE("a study that ends inside a block of 64 days misses no flats", "[slow]") {
    constexpr int kStudies = 200;
    constexpr std::int64_t kRaces = 96;
    // Binomial, as if every day were drawn plainly: grouped ones are known better.
    const double error = std::sqrt(kFlat * (1.0 - kFlat) / (kRaces * kStudies));
    const double found = average_flats(kRaces, kStudies);
    CHECK(std::abs(found - kFlat) <= kSigmas * error);
    // Twin: the last half block holding only its plain lanes and those without points.
    CHECK_FALSE(std::abs(found * (64.0 + 14.0) / 96.0 - kFlat) <= kSigmas * error);
}

TEST_CASE("the study meets the exact flat example, plain days", "[slow]") {
    const Findings found = study(DrawKind::kPlain);
    for (const SetupFindings& setup : found.setups) check_all(setup);
}

TEST_CASE("the check fails when flats are drawn 3 % too often", "[slow]") {
    const Findings found =
        study(DrawKind::kPlain, {"flats.training=\"1 per 1456.3 km\""});
    CHECK_FALSE(is_within(found.setups.front().flat, kFlat));
}

TEST_CASE("the check fails when repairs take 3 % longer", "[slow]") {
    const Findings found =
        study(DrawKind::kStratified,
              {"rider.repair={ median = \"309 s\", spread = 1.4190675485932573 }"});
    CHECK_FALSE(is_within(found.setups.front().mean_judged_s, exact_mean_judged()));
}

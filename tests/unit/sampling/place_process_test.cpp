#include "sampling/place_process.h"

#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <cstring>
#include <vector>

#include "base/lane_math.h"
#include "statistical_checks.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::sampling;
using namespace flattail::test;
using base::lane::kPi;

namespace {

constexpr double kCourseM = 90000.0;
constexpr double kLengthM = 9000.0;
constexpr double kSpread = 0.05;  // 14 sd away from the bounds of a factor
constexpr int kBlocks = 3000;     // 192,000 days

const VectorMath& widest_math() { return vector_math(base::detect_instruction_set()); }

double shape_mode(std::size_t k, double place_m) {
    const double cosine = std::cos(static_cast<double>(k) * kPi * place_m / kCourseM);
    return k == 0 ? 1.0 : std::sqrt(2.0) * cosine;
}

// Sum of the modes' products: what the covariance of two places should be.
double sum_covariance(const PlaceProcess& process, double s_m, double t_m) {
    double sum = 0.0;
    for (std::size_t k = 0; k < kPlaceModes; ++k) {
        const double sd = process.mode_sd()[k];
        sum += sd * sd * shape_mode(k, s_m) * shape_mode(k, t_m);
    }
    return sum;
}

// Factors less 1: [place][day].
std::vector<std::vector<double>> draw_deviations(const PlaceProcess& process,
                                                 const std::vector<double>& place_m) {
    std::vector<std::vector<double>> drawn(place_m.size());
    std::vector<double> block(place_m.size() * kLanes);
    for (std::uint64_t b = 0; b < kBlocks; ++b) {
        process.fill(4, b * kLanes, place_m, widest_math(), block.data());
        for (std::size_t m = 0; m < place_m.size(); ++m) {
            for (std::size_t j = 0; j < kLanes; ++j) {
                drawn[m].push_back(block[m * kLanes + j] - 1.0);
            }
        }
    }
    return drawn;
}

// Middles of equal pieces: every mode but the constant one averages to 0 over them.
std::vector<double> list_middles(int count) {
    std::vector<double> middles;
    for (int i = 0; i < count; ++i) middles.push_back(kCourseM * (i + 0.5) / count);
    return middles;
}

std::vector<double> average_over_course(const PlaceProcess& process) {
    const auto drawn = draw_deviations(process, list_middles(kPlaceModes));
    std::vector<double> mean(drawn[0].size());
    for (const auto& place : drawn) {
        for (std::size_t i = 0; i < mean.size(); ++i) mean[i] += place[i] / kPlaceModes;
    }
    return mean;
}

/// Null: jointly normal, mean 0. x y has mean c and variance var x var y + c^2.
bool has_covariance(const std::vector<double>& x, const std::vector<double>& y, double c,
                    double variance_product) {
    std::vector<double> products(x.size());
    for (std::size_t i = 0; i < x.size(); ++i) products[i] = x[i] * y[i];
    return has_mean(products, c, std::sqrt(variance_product + c * c));
}

bool has_variance(const std::vector<double>& x, double variance) {
    return has_covariance(x, x, variance, variance * variance);
}

// Variance of a mode by integrating the exponential covariance twice, cut at its kink.
double integrate_mode_variance(std::size_t k, double ratio) {
    using Rule = boost::math::quadrature::gauss<double, 30>;
    const auto mode = [k](double s) { return shape_mode(k, s * kCourseM); };
    constexpr int kPieces = 8;  // the kernel is sharp where the length is short
    double sum = 0.0;
    const auto inner = [&](double s) {
        const auto kernel = [&](double t) { return std::exp((t - s) / ratio) * mode(t); };
        double below = 0.0;
        for (int i = 0; i < kPieces; ++i) {
            below += Rule::integrate(kernel, s * i / kPieces, s * (i + 1) / kPieces);
        }
        return 2.0 * mode(s) * below;
    };
    for (int i = 0; i < kPieces; ++i) {
        sum += Rule::integrate(inner, i / static_cast<double>(kPieces),
                               (i + 1) / static_cast<double>(kPieces));
    }
    return sum;
}

}  // namespace

TEST_CASE("the constant mode is the time average of an Ornstein-Uhlenbeck process") {
    struct Row {
        double span, variance;
    };
    // 2 s^2 (tau / T) [1 - (tau / T)(1 - e^(-T / tau))], tau 60, s 1.5, by mpmath.
    for (const Row& row : {Row{60.0, 1.65545748527}, Row{600.0, .405002042997},
                           Row{9529.411765, .0281549382716}}) {
        const double sd = PlaceProcess("test", 1.5, 60.0, row.span).mode_sd()[0];
        CHECK(sd * sd == Approx(row.variance).epsilon(1e-10));
        const double half = PlaceProcess("test", 0.75, 60.0, row.span).mode_sd()[0];
        CHECK(half * half / (0.75 * 0.75) ==
              Approx(row.variance / (1.5 * 1.5)).epsilon(1e-10));
    }
}

TEST_CASE("every mode has the variance of the covariance's projection on it") {
    for (const double ratio : {0.02, 0.1, 1.0, 5.0}) {
        const PlaceProcess process("test", 1.0, ratio * kCourseM, kCourseM);
        for (std::size_t k = 0; k < kPlaceModes; ++k) {
            CAPTURE(ratio, k);
            const double sd = process.mode_sd()[k];
            CHECK(sd * sd == Approx(integrate_mode_variance(k, ratio)).epsilon(1e-9));
        }
    }
}

TEST_CASE("modes together hold at most the variance of the process, more if it is slow") {
    double before = 0.0;
    for (const double ratio : {0.01, 0.05, 0.2, 1.0, 5.0}) {
        const PlaceProcess process("test", 1.0, ratio * kCourseM, kCourseM);
        double sum = 0.0;
        for (const double sd : process.mode_sd()) sum += sd * sd;
        CHECK(sum < 1.0);  // Bessel's inequality
        CHECK(sum > before);
        before = sum;
    }
    CHECK(before > 0.99);
}

TEST_CASE("means over the course vary as the closed form says") {
    // Null: normal with the time average's variance, mean 1. Bound 4.9 standard errors.
    const PlaceProcess process("test", kSpread, kLengthM, kCourseM);
    const double ratio = kLengthM / kCourseM;
    const double exact =
        kSpread * kSpread * 2.0 * ratio * (1.0 - ratio * (1.0 - std::exp(-1.0 / ratio)));
    const std::vector<double> means = average_over_course(process);
    CHECK(has_mean(means, 0.0, std::sqrt(exact)));
    CHECK(has_variance(means, exact));
}

TEST_CASE("twin: a length or a spread five per cent too large is found") {
    const double sd = PlaceProcess("test", kSpread, kLengthM, kCourseM).mode_sd()[0];
    const PlaceProcess longer("test", kSpread, 1.05 * kLengthM, kCourseM);
    CHECK_FALSE(has_variance(average_over_course(longer), sd * sd));
    const PlaceProcess wider("test", 1.05 * kSpread, kLengthM, kCourseM);
    CHECK_FALSE(has_variance(average_over_course(wider), sd * sd));
}

TEST_CASE("two places vary together as the modes say") {
    const PlaceProcess process("test", kSpread, kLengthM, kCourseM);
    const std::vector<double> places{0.0, 4000.0, 45000.0, kCourseM};
    const auto drawn = draw_deviations(process, places);
    for (std::size_t a = 0; a < places.size(); ++a) {
        for (std::size_t b = 0; b <= a; ++b) {
            CAPTURE(places[a], places[b]);
            const double product = sum_covariance(process, places[a], places[a]) *
                                   sum_covariance(process, places[b], places[b]);
            const double c = sum_covariance(process, places[a], places[b]);
            CHECK(has_covariance(drawn[a], drawn[b], c, product));
        }
    }
    // Twin: the same pair read 1 km further apart.
    const double moved = sum_covariance(process, 0.0, 5000.0);
    const double product =
        sum_covariance(process, 0.0, 0.0) * sum_covariance(process, 4000.0, 4000.0);
    CHECK_FALSE(has_covariance(drawn[0], drawn[1], moved, product));
}

TEST_CASE("a place has its factor whichever places are read with it") {
    const PlaceProcess process("test", kSpread, kLengthM, kCourseM);
    std::array<double, 3 * kLanes> three;
    std::array<double, kLanes> alone;
    process.fill(1, 640, {100.0, 5000.0, 80000.0}, widest_math(), three.data());
    process.fill(1, 640, {5000.0}, widest_math(), alone.data());
    CHECK(std::memcmp(three.data() + kLanes, alone.data(), sizeof alone) == 0);
}

TEST_CASE("every instruction set draws the same factors") {
    const PlaceProcess process("test", 0.4, kLengthM, kCourseM);
    const std::vector<double> places = list_middles(5);
    std::array<double, 5 * kLanes> expected, found;
    process.fill(9, 0, places, vector_math(base::InstructionSet::kBaseline),
                 expected.data());
    for (const auto set : base::supported_instruction_sets()) {
        process.fill(9, 0, places, vector_math(set), found.data());
        CAPTURE(base::name_instruction_set(set));
        CHECK(std::memcmp(expected.data(), found.data(), sizeof found) == 0);
    }
}

TEST_CASE("power and gusts go their own ways") {
    const PlaceProcess power("power", kSpread, kLengthM, kCourseM);
    const PlaceProcess gusts("gusts", kSpread, kLengthM, kCourseM);
    const double sd = power.mode_sd()[0];
    const auto a = average_over_course(power), b = average_over_course(gusts);
    CHECK(has_covariance(a, b, 0.0, sd * sd * sd * sd));
    CHECK_FALSE(has_covariance(a, a, 0.0, sd * sd * sd * sd));
}

TEST_CASE("no spread means no variation, and wild days stay within bounds") {
    std::array<double, kLanes> factor;
    PlaceProcess("test", 0.0, kLengthM, kCourseM)
        .fill(1, 0, {1000.0}, widest_math(), factor.data());
    for (const double f : factor) CHECK(f == 1.0);
    PlaceProcess("test", 5.0, kLengthM, kCourseM)
        .fill(1, 0, {1000.0}, widest_math(), factor.data());
    for (const double f : factor) CHECK((f >= 0.3 && f <= 2.5));
}

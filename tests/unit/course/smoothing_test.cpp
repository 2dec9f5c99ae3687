#include "course/smoothing.h"

#include <cmath>
#include <random>

#include "support/catch.h"

using namespace flattail::course;

namespace {

std::vector<double> draw_wave(std::size_t count, double spacing_m, double wave_m) {
    std::vector<double> wave(count);
    for (std::size_t j = 0; j < count; ++j) {
        wave[j] = std::sin(2.0 * M_PI * static_cast<double>(j) * spacing_m / wave_m);
    }
    return wave;
}

std::vector<double> draw_noise(std::size_t count, double sd, unsigned seed) {
    std::mt19937_64 bits(seed);
    std::normal_distribution<double> normal(0.0, sd);
    std::vector<double> noise(count);
    for (double& value : noise) {
        value = normal(bits);
    }
    return noise;
}

}  // namespace

TEST_CASE("a wave of the cutoff length keeps half its height, longer ones more") {
    // Transfer function of Whittaker's smoother, 1 / (1 + lambda (2 - 2 cos kh)^2), exact
    // for an endless wave (Eilers 2003); compared away from the ends.
    const double spacing_m = 5.0;
    const double cutoff_m = 200.0;
    for (const double wave_m : {50.0, 100.0, 200.0, 400.0, 1000.0}) {
        const std::vector<double> wave = draw_wave(4001, spacing_m, wave_m);
        const std::vector<double> smooth =
            smooth_columns({wave}, spacing_m, cutoff_m).front();
        double dot = 0.0;
        double norm = 0.0;
        for (std::size_t j = 1000; j < 3000; ++j) {
            dot += wave[j] * smooth[j];
            norm += wave[j] * wave[j];
        }
        const double lambda = std::pow(cutoff_m / (2.0 * M_PI * spacing_m), 4);
        const double second = 2.0 - 2.0 * std::cos(2.0 * M_PI * spacing_m / wave_m);
        CAPTURE(wave_m);
        CHECK(dot / norm == Approx(1.0 / (1.0 + lambda * second * second)).epsilon(1e-6));
        if (wave_m == cutoff_m) {
            CHECK(dot / norm == Approx(0.5).epsilon(0.01));
        }
    }
}

TEST_CASE("smoothing leaves straight lines alone") {
    std::vector<double> line(500);
    for (std::size_t j = 0; j < line.size(); ++j) {
        line[j] = 1000.0 + 3.0 * static_cast<double>(j);
    }
    const std::vector<double> smooth = smooth_columns({line}, 5.0, 400.0).front();
    for (std::size_t j = 0; j < line.size(); ++j) {
        CHECK(smooth[j] == Approx(line[j]).epsilon(1e-9));
    }
}

TEST_CASE("noise is seen through fourth differences, smooth hills are not") {
    // Null: white normal noise of sd 2. A fourth difference has variance 70 sd^2; those
    // of 20,000 readings with stride 3 have correlations -56, 28, -8, 1 over 70, so the
    // relative standard error of the root mean square is
    // sqrt((1 + 2 (56^2 + 28^2 + 8^2 + 1) / 70^2) / (2 n)) = .80 % and the bound, 4.9 of
    // them, 3.9 %. The median's asymptotic variance is at most 2.7 times larger: 6.5 %.
    const std::vector<double> noise = draw_noise(20000, 2.0, 4);
    CHECK(estimate_noise({noise}, 3, NoiseMeasure::kMeanSquare) ==
          Approx(2.0).epsilon(0.039));
    CHECK(estimate_noise({noise}, 3, NoiseMeasure::kMedian) ==
          Approx(2.0).epsilon(0.065));
    // The twin that must fail: noise of 2.2.
    const std::vector<double> louder = draw_noise(20000, 2.2, 4);
    CHECK_FALSE(estimate_noise({louder}, 3, NoiseMeasure::kMeanSquare) ==
                Approx(2.0).epsilon(0.039));
    std::vector<double> hills = draw_wave(4000, 5.0, 1000.0);
    for (double& height : hills) {
        height *= 20.0;
    }
    CHECK(estimate_noise({hills}, 4, NoiseMeasure::kMeanSquare) < 0.01);
    CHECK(std::isinf(estimate_noise({{1.0, 2.0, 3.0}}, 1, NoiseMeasure::kMedian)));
}

TEST_CASE("what is smoothed away is the stated noise, not more") {
    // Winding road with 2 m noise: the discrepancy principle must leave a residual of
    // about the noise, so bends of 60 m radius cannot be ironed flat.
    Path path;
    const std::vector<double> east = draw_noise(4001, 2.0, 5);
    const std::vector<double> north = draw_noise(4001, 2.0, 6);
    for (std::size_t i = 0; i < 4001; ++i) {
        const double place_m = 5.0 * static_cast<double>(i);
        path.distance_m.push_back(place_m);
        path.east_m.push_back(place_m + east[i]);
        path.north_m.push_back(10.0 * std::sin(2.0 * M_PI * place_m / 150.0) + north[i]);
        path.elevation_m.push_back(0.0);
        path.latitude_deg.push_back(0.0);
        path.longitude_deg.push_back(0.0);
    }
    remeasure(path);
    const SmoothPath smooth = smooth_path(path, {3.0, 1.5});
    CHECK(smooth.plan_cutoff_m < 150.0);
    double highest = 0.0;
    for (const double value : smooth.path.north_m) {
        highest = std::max(highest, value);
    }
    CHECK(highest > 8.0);
}

TEST_CASE("a huge track is smoothed in cells that stay within their number") {
    Path path;
    for (int i = 0; i <= 500000; ++i) {
        path.distance_m.push_back(3.0 * i);
        path.east_m.push_back(3.0 * i);
        path.north_m.push_back(0.0);
        path.elevation_m.push_back(100.0 * std::sin(i * 1e-3));
        path.latitude_deg.push_back(0.0);
        path.longitude_deg.push_back(0.0);
    }
    const SmoothPath smooth = smooth_path(path, {3.0, 1.5});
    CHECK(smooth.path.size() <= static_cast<std::size_t>(kMaxCells) + 1);
    CHECK(smooth.path.length_m() == Approx(1.5e6).epsilon(1e-6));
}

#include <cstdint>
#include <string>
#include <vector>

#include "sampling/address.h"
#include "sampling/vector_math.h"
#include "statistical_checks.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::sampling;
using namespace flattail::test;

namespace {

constexpr std::uint64_t kSeed = 20240607;
constexpr int kBlocks = 2048;  // 131,072 days

std::vector<double> draw_days(const std::string& input, std::uint32_t draw = 0,
                              std::uint64_t seed = kSeed, int blocks = kBlocks) {
    const VectorMath& math = vector_math(base::detect_instruction_set());
    std::vector<double> u(static_cast<std::size_t>(blocks) * kLanes);
    for (std::size_t day = 0; day < u.size(); day += kLanes) {
        math.fill_uniform({seed, hash_input_name(input), draw}, day, u.data() + day);
    }
    return u;
}

std::vector<int> count_cells(const std::vector<double>& u, std::size_t cells) {
    std::vector<int> counts(cells);
    for (const double x : u)
        ++counts[static_cast<std::size_t>(x * static_cast<double>(cells))];
    return counts;
}

std::vector<double> pick_every(const std::vector<double>& u, std::size_t step,
                               std::size_t first) {
    std::vector<double> picked;
    for (std::size_t i = first; i < u.size(); i += step) picked.push_back(u[i]);
    return picked;
}

std::vector<double> list_names_at_one_day(std::size_t count) {
    std::vector<double> u;
    for (std::size_t i = 0; i < count; ++i) {
        u.push_back(
            draw_uniform({kSeed, hash_input_name("input" + std::to_string(i)), 5, 0}));
    }
    return u;
}

}  // namespace

TEST_CASE("uniforms fill their cells evenly over days, draws and inputs") {
    CHECK(is_even(count_cells(draw_days("wind"), 256)));
    CHECK(is_even(count_cells(draw_days("wind", 1), 256)));
    CHECK(is_even(count_cells(draw_days("power"), 256)));
    CHECK(is_even(count_cells(draw_days("wind", 0, kSeed + 1), 256)));
    CHECK(is_even(count_cells(list_names_at_one_day(65536), 256)));
}

TEST_CASE("twin: a density tilted by a tenth is found uneven, and so is a grid") {
    std::vector<double> bent = draw_days("wind");
    for (double& u : bent) u += 0.1 * u * (1.0 - u);
    CHECK_FALSE(is_even(count_cells(bent, 256)));
    std::vector<double> grid;
    for (int i = 0; i < 65536; ++i) grid.push_back((i + 0.5) / 65536);
    CHECK_FALSE(is_even(count_cells(grid, 256)));
}

TEST_CASE("each lane is uniform by itself") {
    const std::vector<double> u = draw_days("temperature", 0, kSeed, 4096);
    for (std::size_t lane = 0; lane < kLanes; ++lane) {
        CAPTURE(lane);
        CHECK(is_even(count_cells(pick_every(u, kLanes, lane), 16)));
    }
}

TEST_CASE("pairs of inputs, of draws, of seeds and of days fill the square evenly") {
    const auto count_square = [](const std::vector<double>& u,
                                 const std::vector<double>& v) {
        std::vector<int> counts(256);
        for (std::size_t i = 0; i < std::min(u.size(), v.size()); ++i) {
            const auto row = static_cast<std::size_t>(u[i] * 16.0);
            ++counts[row * 16 + static_cast<std::size_t>(v[i] * 16.0)];
        }
        return counts;
    };
    const std::vector<double> wind = draw_days("wind");
    CHECK(is_even(count_square(wind, draw_days("power"))));
    CHECK(is_even(count_square(wind, draw_days("wind", 1))));
    CHECK(is_even(count_square(wind, draw_days("wind", 0, kSeed + 1))));
    CHECK(is_even(count_square(pick_every(wind, 2, 0), pick_every(wind, 2, 1))));
    CHECK(is_even(count_square(pick_every(wind, 2, 1), pick_every(wind, 2, 2))));
    CHECK_FALSE(is_even(count_square(wind, wind)));
}

TEST_CASE("inputs, draws and days are uncorrelated") {
    const std::vector<double> wind = draw_days("wind");
    CHECK(are_uncorrelated(wind, draw_days("power")));
    CHECK(are_uncorrelated(wind, draw_days("wind2")));
    CHECK(are_uncorrelated(wind, draw_days("wind", 1)));
    CHECK(are_uncorrelated(wind, draw_days("wind", 0, kSeed ^ (1ull << 40))));
    CHECK(are_uncorrelated(pick_every(wind, 2, 0), pick_every(wind, 2, 1)));
    for (const std::size_t lag : {1u, 2u, 32u, 64u}) {
        const std::vector<double> later(wind.begin() + static_cast<std::ptrdiff_t>(lag),
                                        wind.end());
        const std::vector<double> now(wind.begin(),
                                      wind.end() - static_cast<std::ptrdiff_t>(lag));
        CAPTURE(lag);
        CHECK(are_uncorrelated(now, later));
    }
}

TEST_CASE("twin: one part in fifty of another input is found") {
    const std::vector<double> wind = draw_days("wind");
    std::vector<double> leaky = draw_days("power");
    for (std::size_t i = 0; i < leaky.size(); ++i)
        leaky[i] += 0.02 * (wind[i] - leaky[i]);
    CHECK_FALSE(are_uncorrelated(wind, leaky));
}

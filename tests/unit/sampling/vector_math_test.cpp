#include "sampling/vector_math.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "base/lane_normal.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::sampling;

namespace {

using Block = std::array<double, kLanes>;
using Loop = std::function<void(const VectorMath&, const double* u, double* out)>;

struct NamedLoop {
    std::string name;
    Loop run;
};

/// Every entry point, driven by a block of uniforms stretched to its range.
std::vector<NamedLoop> list_loops() {
    static const std::array<double, 12> coefficients{0,  1,   0,   0, 1, 2,
                                                     .5, -.1, 3.4, 1, 1, 1};
    const CubicCells cells{-2.0, 0.75, 3, coefficients.data()};
    const auto stretch = [](const VectorMath& math, const double* u, double low,
                            double high) {
        Block x;
        math.affine(u, low, high - low, x.data());
        return x;
    };
    return {
        {"log", [](auto& m, auto* u, auto* out) { m.log(u, out); }},
        {"exp", [=](auto& m, auto* u,
                    auto* out) { m.exp(stretch(m, u, -800, 800).data(), out); }},
        {"power", [](auto& m, auto* u, auto* out) { m.power(u, -1.7, out); }},
        {"normal_quantile",
         [](auto& m, auto* u, auto* out) { m.normal_quantile(u, out); }},
        {"normal_cdf",
         [=](auto& m, auto* u, auto* out) {
             m.normal_cdf(stretch(m, u, -40, 40).data(), out);
         }},
        {"normal_cdf near 0",
         [=](auto& m, auto* u, auto* out) {
             m.normal_cdf(stretch(m, u, -6, 6).data(), out);
         }},
        {"sine",
         [=](auto& m, auto* u, auto* out) {
             Block cosine;
             m.sin_cos_turns(stretch(m, u, -3, 3).data(), out, cosine.data());
         }},
        {"cosine",
         [=](auto& m, auto* u, auto* out) {
             Block sine;
             m.sin_cos_turns(stretch(m, u, -3, 3).data(), sine.data(), out);
         }},
        {"wrap_angle",
         [=](auto& m, auto* u, auto* out) {
             m.wrap_angle(stretch(m, u, -99, 99).data(), out);
         }},
        {"affine", [](auto& m, auto* u, auto* out) { m.affine(u, 0.1, 3.3, out); }},
        {"clamp", [](auto& m, auto* u, auto* out) { m.clamp(u, 0.3, 0.6, out); }},
        {"combine_modes",
         [=](auto& m, auto* u, auto* out) {
             std::array<double, 2 * kLanes> score;
             std::copy_n(u, kLanes, score.data());
             m.normal_quantile(u, score.data() + kLanes);
             const std::array<double, 2> weight{0.3, -0.7};
             m.combine_modes({1.0, 2, weight.data(), score.data()}, out);
         }},
        {"split_scale",
         [=](auto& m, auto* u, auto* out) {
             m.split_scale(stretch(m, u, -3, 3).data(), {10.0, 0.7, 1.9}, out);
         }},
        {"weibull",
         [](auto& m, auto* u, auto* out) {
             m.weibull(u, {1.9, 5.5}, out);
         }},
        {"triangular",
         [](auto& m, auto* u, auto* out) {
             m.triangular(u, {1, 4, 5}, out);
         }},
        {"cubic_cells",
         [=](auto& m, auto* u, auto* out) {
             m.cubic_cells(stretch(m, u, -3, 3).data(), cells, out);
         }},
    };
}

bool have_same_bits(const Block& a, const Block& b) {
    return std::memcmp(a.data(), b.data(), sizeof a) == 0;
}

Block draw_block(const VectorMath& math, std::uint64_t first_day, bool in_tail) {
    Block u;
    math.fill_uniform({9, 1, 0}, first_day, u.data());
    // Squeezed towards 0, the far branches of the quantile are reached too.
    if (in_tail) math.power(u.data(), 30.0, u.data());
    return u;
}

}  // namespace

TEST_CASE("every loop gives the same bits on every instruction set") {
    const VectorMath& reference = vector_math(base::InstructionSet::kBaseline);
    for (const NamedLoop& loop : list_loops()) {
        for (const auto set : base::supported_instruction_sets()) {
            CAPTURE(loop.name, base::name_instruction_set(set));
            for (int block = 0; block < 100; ++block) {
                const auto first = static_cast<std::uint64_t>(block) * kLanes;
                const Block u = draw_block(reference, first, block % 2 == 1);
                Block expected, found;
                loop.run(reference, u.data(), expected.data());
                loop.run(vector_math(set), u.data(), found.data());
                REQUIRE(have_same_bits(expected, found));
            }
        }
    }
}

TEST_CASE("a loop may write over what it reads") {
    for (const auto set : base::supported_instruction_sets()) {
        const VectorMath& math = vector_math(set);
        const Block u = draw_block(math, 64, false);
        Block apart;
        Block in_place = u;
        math.normal_quantile(u.data(), apart.data());
        math.normal_quantile(in_place.data(), in_place.data());
        CHECK(have_same_bits(apart, in_place));
        math.exp(apart.data(), apart.data());
        Block again;
        math.exp(in_place.data(), again.data());
        CHECK(have_same_bits(apart, again));
    }
}

TEST_CASE("the loops are the scalar functions lane by lane") {
    for (const auto set : base::supported_instruction_sets()) {
        const VectorMath& math = vector_math(set);
        const Block u = draw_block(math, 128, false);
        Block log, quantile, share, weibull;
        math.log(u.data(), log.data());
        math.normal_quantile(u.data(), quantile.data());
        math.normal_cdf(quantile.data(), share.data());
        math.weibull(u.data(), {2.0, 5.0}, weibull.data());
        for (std::size_t i = 0; i < kLanes; ++i) {
            REQUIRE(log[i] == base::lane::log(u[i]));
            REQUIRE(quantile[i] == base::lane::normal_quantile(u[i]));
            REQUIRE(share[i] == base::lane::normal_cdf(quantile[i]));
            REQUIRE(weibull[i] == base::lane::weibull_quantile(u[i], 0.5, 5.0));
        }
    }
}

TEST_CASE("scores beyond the cells take the value at their end") {
    const std::array<double, 8> coefficients{1, 2, 0, 0, 3, 4, 0, 0};
    const CubicCells cells{-1.0, 1.0, 2, coefficients.data()};
    Block z{};
    z[0] = -9.0;
    z[1] = 9.0;
    z[2] = -0.5;
    z[3] = 1.0;
    Block out;
    for (const auto set : base::supported_instruction_sets()) {
        vector_math(set).cubic_cells(z.data(), cells, out.data());
        CHECK(out[0] == 1.0);
        CHECK(out[1] == 7.0);
        CHECK(out[2] == 2.0);
        CHECK(out[3] == 7.0);
    }
}

TEST_CASE("modes are added with their weights") {
    std::array<double, 2 * kLanes> score;
    for (std::size_t i = 0; i < score.size(); ++i) score[i] = static_cast<double>(i);
    const std::array<double, 2> weight{2.0, -0.5};
    Block out;
    for (const auto set : base::supported_instruction_sets()) {
        const ModeSum sum{10.0, 2, weight.data(), score.data()};
        vector_math(set).combine_modes(sum, out.data());
        // 10 + 2 i - (64 + i) / 2
        CHECK(out[0] == -22.0);
        CHECK(out[63] == 72.5);
    }
}

// What a smooth function of the unknown facts is written in.
#pragma once

#include <cstddef>
#include <span>
#include <utility>
#include <vector>

namespace flattail::findings {

/// Terms 1, z_i, z_i^2 - 1, and z_i z_j for the listed pairs, z_i being the standard
/// normal score of unknown fact i. Under independent facts these are uncorrelated, so a
/// term's variance belongs to its facts alone.
/// Source: METHOD 10.16 (Sudret 2008, Hermite
/// polynomials up to degree 2)
struct KnowledgeFeatures {
    std::size_t inputs = 0;
    std::vector<std::pair<std::size_t, std::size_t>> products;

    std::size_t size() const { return 1 + 2 * inputs + products.size(); }
    std::size_t linear(std::size_t input) const { return 1 + input; }
    std::size_t square(std::size_t input) const { return 1 + inputs + input; }
    std::size_t product(std::size_t pair) const { return 1 + 2 * inputs + pair; }
};

/// How much of each term survives if share known[i] of the variance of fact i is learnt:
/// 1 for the constant, r_i, r_i^2, r_i r_j with r = sqrt(known).
/// Range:   known in [0, 1]
/// Source:  METHOD 10.20 (Mehler: E[He_n(z) | data] = r^n He_n)
std::vector<double> learnt_share(const KnowledgeFeatures& features,
                                 std::span<const double> known);

/// Normal scores by rank, for facts that come as values and not as draws of a known law;
/// equal values share their middle rank.
/// Source: van der Waerden 1952
std::vector<double> normal_scores_by_rank(std::span<const double> values);

}  // namespace flattail::findings

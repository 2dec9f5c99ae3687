// Tests sorted into laboratories and products, which can be compared with which, and the
// cells that the posterior takes.
#pragma once

#include <string>
#include <vector>

#include "evidence/rolling/posterior.h"
#include "flattail/evidence.h"

namespace flattail::evidence {

// What is believed of a maker's own product: it rolls worse by this than claimed, give or
// take the sd. Assumption: claims in watts are chosen, rarely invented,
// and 3 W a pair at 45 km/h is what a favourable choice is worth. Larger: makers count
// for less.
inline constexpr double kMakerFlattery = 0.0003;
inline constexpr double kMakerFlatterySd = 0.0003;

/// Sd of the difference of two products before any test. Assumption: two differences in
/// three within .0015, the change from a race to a tough tyre.
inline constexpr double kDifferencePriorSd = 0.0015;

/// Laboratories and products by number; product 0 is the one compared with. Tests that
/// are alike in laboratory, method, surface and tyre form a block.
struct TestTable {
    std::vector<std::string> laboratories;
    std::vector<std::string> products;
    std::vector<std::string> blocks;
};

/// The product that most laboratories tested, independent ones counted first; of equals
/// the first.
std::string choose_against(const std::vector<RollingTest>& tests);

/// Keeps in use the tests of products that a chain of blocks joins to the one compared
/// with; others are marked unused with the reason.
TestTable sort_tests(std::vector<RollingTest>& tests, const std::string& against);

/// One cell for each block and product with used tests; a maker's products discounted or
/// left out as asked. The product compared with is never discounted: it is the yardstick
/// of the same test.
std::vector<Cell> make_cells(const std::vector<RollingTest>& tests,
                             const TestTable& table, MakerRows makers);

/// Which products a chain of blocks joins to product 0.
std::vector<bool> find_joined(const std::vector<Cell>& cells, std::size_t products);

}  // namespace flattail::evidence

#include "evidence/rolling/table.h"

#include <algorithm>
#include <map>
#include <set>

namespace flattail::evidence {

namespace {

std::string name_block(const RollingTest& test) {
    return test.source + '\n' + test.method + '\n' + test.surface + '\n' + test.tyre;
}

int find_index(std::vector<std::string>& names, const std::string& name) {
    const auto found = std::find(names.begin(), names.end(), name);
    if (found == names.end()) names.push_back(name);
    return static_cast<int>(std::find(names.begin(), names.end(), name) - names.begin());
}

// Products by block and blocks by product, from pairs of the two.
template <class Key>
std::set<Key> spread_from(const Key& start,
                          const std::vector<std::pair<int, Key>>& pairs) {
    std::set<Key> joined{start};
    std::set<int> blocks;
    for (bool grows = true; grows;) {
        grows = false;
        for (const auto& [block, key] : pairs) {
            if (joined.count(key) > 0) grows |= blocks.insert(block).second;
            if (blocks.count(block) > 0) grows |= joined.insert(key).second;
        }
    }
    return joined;
}

struct Tally {
    std::set<std::string> independent, all;
};

}  // namespace

std::string choose_against(const std::vector<RollingTest>& tests) {
    std::vector<std::string> names;
    std::map<std::string, Tally> tallies;
    for (const RollingTest& test : tests) {
        if (!test.used) continue;
        find_index(names, test.product);
        Tally& tally = tallies[test.product];
        if (!test.by_maker) tally.independent.insert(test.source);
        tally.all.insert(test.source);
    }
    const auto rank = [&](const std::string& name) {
        const Tally& tally = tallies[name];
        return std::pair(tally.independent.size(), tally.all.size());
    };
    const auto best = std::max_element(
        names.begin(), names.end(),
        [&](const std::string& a, const std::string& b) { return rank(a) < rank(b); });
    return best == names.end() ? std::string() : *best;
}

TestTable sort_tests(std::vector<RollingTest>& tests, const std::string& against) {
    TestTable table;
    table.products.push_back(against);
    std::vector<std::string> blocks;
    std::vector<std::pair<int, std::string>> pairs;
    for (const RollingTest& test : tests) {
        if (!test.used) continue;
        pairs.emplace_back(find_index(blocks, name_block(test)), test.product);
    }
    const std::set<std::string> joined = spread_from(against, pairs);
    std::map<std::string, std::set<std::string>> beside;  // products of a block
    for (const auto& [block, product] : pairs) {
        beside[blocks[static_cast<std::size_t>(block)]].insert(product);
    }
    for (RollingTest& test : tests) {
        if (!test.used) continue;
        if (beside[name_block(test)].size() < 2) {
            test.used = false;
            test.note = "nothing was tested beside it in the same way: no difference";
        } else if (joined.count(test.product) == 0) {
            test.used = false;
            test.note = "no laboratory joins it to " + against;
        }
    }
    for (const RollingTest& test : tests) {
        if (!test.used) continue;
        find_index(table.laboratories, test.source);
        find_index(table.blocks, name_block(test));
        find_index(table.products, test.product);
    }
    return table;
}

std::vector<Cell> make_cells(const std::vector<RollingTest>& tests,
                             const TestTable& table, MakerRows makers) {
    struct Sum {
        double weight = 0.0, weighted = 0.0;
        int laboratory = 0;
        bool by_maker = false;
    };
    TestTable names = table;
    std::map<std::pair<int, int>, Sum> sums;
    for (const RollingTest& test : tests) {
        if (!test.used || (test.by_maker && makers == MakerRows::kLeftOut)) continue;
        Sum& sum = sums[{find_index(names.blocks, name_block(test)),
                         find_index(names.products, test.product)}];
        const double weight = 1.0 / (test.standard_error * test.standard_error);
        sum.weight += weight;
        sum.weighted += weight * test.crr;
        sum.laboratory = find_index(names.laboratories, test.source);
        sum.by_maker |= test.by_maker;
    }
    std::vector<Cell> cells;
    for (const auto& [at, sum] : sums) {
        const auto [block, product] = at;
        Cell cell{sum.laboratory, block, product, sum.weighted / sum.weight,
                  1.0 / sum.weight};
        if (sum.by_maker && product > 0 && makers == MakerRows::kDiscounted) {
            cell.value += kMakerFlattery;
            cell.variance += kMakerFlatterySd * kMakerFlatterySd;
        }
        cells.push_back(cell);
    }
    return cells;
}

std::vector<bool> find_joined(const std::vector<Cell>& cells, std::size_t products) {
    std::vector<std::pair<int, int>> pairs;
    for (const Cell& cell : cells) pairs.emplace_back(cell.block, cell.product);
    std::vector<bool> joined(products, false);
    for (const int product : spread_from(0, pairs)) {
        joined[static_cast<std::size_t>(product)] = true;
    }
    return joined;
}

}  // namespace flattail::evidence

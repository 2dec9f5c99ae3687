#include "evidence/rolling/belief.h"

#include <cmath>

namespace flattail::evidence {

namespace {

TestedProduct take_product(const ProductEvidence& evidence, const RollingPool& pool,
                           std::size_t p) {
    TestedProduct product;
    product.name = evidence.name;
    product.change = pool.change[p];
    product.sd = pool.sd[p];
    product.tests = evidence.tests;
    product.laboratories = evidence.laboratories;
    product.widths_m = evidence.widths_m;
    product.tyres = evidence.tyres;
    product.surfaces = evidence.surfaces;
    return product;
}

}  // namespace

RollingBelief make_belief(const RollingEvidence& evidence) {
    const RollingPool& pool = evidence.pool;
    RollingBelief belief;
    belief.from = evidence.file;
    belief.specimen_sd = evidence.options.specimen_sd;
    belief.products.emplace_back().name = evidence.against;
    std::vector<std::size_t> kept;
    for (std::size_t p = 0; p < evidence.products.size(); ++p) {
        if (!pool.known[p]) continue;
        kept.push_back(p);
        belief.products.push_back(take_product(evidence.products[p], pool, p));
    }
    const std::size_t size = kept.size() + 1;
    belief.correlation.assign(size * size, 0.0);
    belief.correlation[0] = 1.0;
    for (std::size_t i = 0; i < kept.size(); ++i) {
        for (std::size_t j = 0; j < kept.size(); ++j) {
            const std::size_t p = kept[i], q = kept[j];
            const double together = pool.covariance[p * evidence.products.size() + q] /
                                    (pool.sd[p] * pool.sd[q]);
            belief.correlation[(i + 1) * size + j + 1] = p == q ? 1.0 : together;
        }
    }
    return belief;
}

double find_pair_sd(const RollingBelief& belief, std::size_t product) {
    const double sd = belief.products[product].sd;
    return std::sqrt(sd * sd + 0.5 * belief.specimen_sd * belief.specimen_sd);
}

double find_pair_correlation(const RollingBelief& belief, std::size_t p, std::size_t q) {
    return belief.products[p].sd * belief.products[q].sd * belief.find_correlation(p, q) /
           (find_pair_sd(belief, p) * find_pair_sd(belief, q));
}

}  // namespace flattail::evidence

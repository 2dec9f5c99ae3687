#include "findings/knowledge/features.h"

#include <boost/math/distributions/normal.hpp>
#include <cmath>

#include "base/expects.h"
#include "findings/sample/order.h"

namespace flattail::findings {

std::vector<double> learnt_share(const KnowledgeFeatures& features,
                                 std::span<const double> known) {
    FLATTAIL_EXPECTS(known.size() == features.inputs);
    std::vector<double> kept(features.size(), 1);
    for (std::size_t input = 0; input < features.inputs; ++input) {
        FLATTAIL_EXPECTS(known[input] >= 0 && known[input] <= 1);
        kept[features.linear(input)] = std::sqrt(known[input]);
        kept[features.square(input)] = known[input];
    }
    for (std::size_t pair = 0; pair < features.products.size(); ++pair) {
        const auto [i, j] = features.products[pair];
        kept[features.product(pair)] = std::sqrt(known[i] * known[j]);
    }
    return kept;
}

std::vector<double> normal_scores_by_rank(std::span<const double> values) {
    const std::vector<std::uint32_t> order = order_by_value(values);
    const double count = static_cast<double>(values.size());
    const boost::math::normal standard;
    std::vector<double> scores(values.size());
    for (std::size_t first = 0, end = 0; first < order.size(); first = end) {
        while (end < order.size() && values[order[end]] == values[order[first]]) ++end;
        const double middle_rank = 0.5 * static_cast<double>(first + end + 1);
        const double score = quantile(standard, middle_rank / (count + 1));
        for (std::size_t rank = first; rank < end; ++rank) scores[order[rank]] = score;
    }
    return scores;
}

}  // namespace flattail::findings

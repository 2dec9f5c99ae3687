#include "findings/independent_luck.h"

#include <algorithm>
#include <cstddef>
#include <numeric>

#include "base/expects.h"

namespace flattail::findings {
namespace {

using Days = std::vector<std::uint32_t>;

// SplitMix64 (Steele, Lea & Flood 2014): a shuffle needs no more, and its stream belongs
// to this file alone, so that no other draw moves when it is used.
class ShuffleBits {
  public:
    explicit ShuffleBits(std::uint64_t seed) : state_(seed) {}

    // Uniform on 0..last from the top bits; the bias, below last / 2^32, is of no
    // account.
    std::size_t index_up_to(std::size_t last) {
        const std::uint64_t top = next() >> 32;
        return static_cast<std::size_t>((top * (std::uint64_t{last} + 1)) >> 32);
    }

  private:
    std::uint64_t next() {
        state_ += 0x9e3779b97f4a7c15ULL;
        std::uint64_t z = state_;
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
        return z ^ (z >> 31);
    }

    std::uint64_t state_;
};

void shuffle_days(Days& days, ShuffleBits& bits) {
    for (std::size_t last = days.size(); last-- > 1;)
        std::swap(days[last], days[bits.index_up_to(last)]);
}

// As many partners as days, each day taken in proportion to its weight: the k-th partner
// is the day in which the running weight passes (k + 1/2)/n of the total.
Days resample_in_proportion(const Days& days, std::span<const double> weight) {
    const double total =
        std::accumulate(days.begin(), days.end(), 0.0,
                        [&](double sum, std::uint32_t day) { return sum + weight[day]; });
    const double step = total / static_cast<double>(days.size());
    Days partner;
    partner.reserve(days.size());
    double running = 0;
    for (const std::uint32_t day : days) {
        running += weight[day];
        while (partner.size() < days.size() &&
               (static_cast<double>(partner.size()) + 0.5) * step < running)
            partner.push_back(day);
    }
    while (partner.size() < days.size()) partner.push_back(days.back());
    return partner;
}

std::vector<Days> days_by_match(const LuckExchange& how) {
    std::vector<Days> groups(256);
    if (how.match.empty()) groups[0].reserve(how.weight.size());
    for (std::size_t day = 0; day < how.weight.size(); ++day) {
        groups[how.match.empty() ? 0 : how.match[day]].push_back(
            static_cast<std::uint32_t>(day));
    }
    return groups;
}

}  // namespace

std::vector<double> exchange_flats(const LegsAndFlats& setup, const LuckExchange& how) {
    FLATTAIL_EXPECTS(setup.legs_s.size() == how.weight.size());
    FLATTAIL_EXPECTS(setup.flat_delay_s.size() == how.weight.size());
    FLATTAIL_EXPECTS(how.match.empty() || how.match.size() == how.weight.size());
    std::vector<double> finish_s(how.weight.size());
    ShuffleBits bits(how.seed);
    for (const Days& days : days_by_match(how)) {
        if (days.empty()) continue;
        // Shuffled before as well, so that the spacing of the draw meets no pattern in
        // the order of the days.
        Days pool = days;
        shuffle_days(pool, bits);
        Days partner = resample_in_proportion(pool, how.weight);
        shuffle_days(partner, bits);
        for (std::size_t k = 0; k < days.size(); ++k)
            finish_s[days[k]] = setup.legs_s[days[k]] + setup.flat_delay_s[partner[k]];
    }
    return finish_s;
}

}  // namespace flattail::findings

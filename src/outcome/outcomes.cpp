#include "outcome/outcomes.h"

#include <algorithm>

namespace flattail::outcome {

void Tally::pack(const ride::RideResult& result) {
    counts = 0;
    const auto put = [this](int place, int count) {
        counts = static_cast<std::uint16_t>(counts | std::min(count, 3) << (2 * place));
    };
    for (int w = 0; w < sampling::kWheels; ++w) {
        for (int c = 0; c < sampling::kCauses; ++c) {
            put(w * sampling::kCauses + c, result.by_cause[static_cast<std::size_t>(w)]
                                                          [static_cast<std::size_t>(c)]);
        }
    }
    put(kAtSpeed, result.flats_at_speed);
    put(kAtSpeed + 1, result.front_at_speed);
}

Outcomes::Outcomes(std::size_t setups, std::size_t days)
    : setups_(setups),
      times_(setups, std::vector<double>(days)),
      lost_(setups, std::vector<float>(days)),
      tallies_(setups, std::vector<Tally>(days)),
      surprises_(setups, std::vector<float>(days)),
      nails_(setups, std::vector<float>(days)),
      weight_(days, 1.0),
      group_(days, 0) {}

void Outcomes::store(std::size_t setup, std::size_t day, const ride::RideResult& result) {
    times_[setup][day] = result.time_s;
    lost_[setup][day] = result.lost_s;
    Tally& tally = tallies_[setup][day];
    tally.ending = result.ending;
    tally.flats = result.flats;
    tally.pack(result);
}

void Outcomes::store_controls(std::size_t setup, std::size_t day,
                              const ride::RideResult& result, double nails) {
    surprises_[setup][day] = static_cast<float>(result.end_surprise);
    nails_[setup][day] = static_cast<float>(nails);
}

void Outcomes::store_day(std::size_t day, double weight, sampling::DayGroup group) {
    weight_[day] = weight;
    group_[day] = static_cast<std::uint8_t>(group);
}

void Outcomes::keep_first(std::size_t days) {
    for (std::size_t s = 0; s < setups_; ++s) {
        times_[s].resize(days);
        lost_[s].resize(days);
        tallies_[s].resize(days);
        surprises_[s].resize(days);
        nails_[s].resize(days);
    }
    weight_.resize(days);
    group_.resize(days);
}

}  // namespace flattail::outcome

#include "evidence/flats/group_rides.h"

#include <algorithm>
#include <map>

#include "input/text/text_file.h"

namespace flattail::evidence {

namespace {

// Groups by name, whatever its letter case; in the order of the log.
class Grouping {
  public:
    RideGroup& find(const std::string& name) {
        const std::string key = input::to_lower(name);
        const auto [at, is_new] = index_.try_emplace(key, groups_.size());
        if (is_new) {
            groups_.emplace_back();
            groups_.back().name = name;
        }
        return groups_[at->second];
    }
    std::vector<RideGroup> take() { return std::move(groups_); }

  private:
    std::map<std::string, std::size_t> index_;
    std::vector<RideGroup> groups_;
};

// Days by date and place in RideSum::days; sums of several rides stay rows of their own.
using DayIndex = std::map<std::pair<const RideSum*, std::chrono::sys_days>, std::size_t>;

void add_ride(RideSum& sum, DayIndex& index, const LogRide& ride) {
    const double even_m = compute_even_distance_m(ride);
    sum.rides += ride.rides;
    sum.distance_m += ride.distance_m;
    sum.even_m += even_m;
    sum.flats += ride.flats;
    if (ride.rides > 1) {
        sum.days.push_back({even_m, ride.flats, static_cast<double>(ride.rides)});
        return;
    }
    const auto [at, is_new] = index.try_emplace(
        std::pair{&sum, std::chrono::sys_days(ride.day)}, sum.days.size());
    if (is_new) sum.days.emplace_back();
    sum.days[at->second].even_m += even_m;
    sum.days[at->second].flats += ride.flats;
}

std::string name_group(const LogRides& rides, const LogRide& ride) {
    if (rides.has_inner) return ride.inner.empty() ? "butyl" : ride.inner;
    if (rides.has_setup) return ride.setup.empty() ? "not named" : ride.setup;
    return "all rides";
}

}  // namespace

double compute_even_distance_m(const LogRide& ride) {
    const auto wetness = ride.wet ? physics::Wetness::kWet : physics::Wetness::kDry;
    const auto kind = find_tyre_kind(ride.tyre).value_or(physics::TyreKind::kRace);
    const double cuts =
        physics::find_wet_factor(wetness) * physics::find_tyre_factor(kind);
    const double pinches = physics::find_impact_factor(ride.surface);
    return ride.distance_m *
           ((1.0 - physics::kPinchShare) * cuts + physics::kPinchShare * pinches);
}

GroupedRides group_rides(const LogRides& rides) {
    Grouping grouping;
    if (rides.has_inner) grouping.find("butyl");
    for (const LogRide& ride : rides.rides) grouping.find(name_group(rides, ride));
    GroupedRides grouped;
    grouped.by_inner = rides.has_inner;
    grouped.groups = grouping.take();
    std::map<std::string, RideGroup*> by_name;
    for (RideGroup& group : grouped.groups) {
        by_name[input::to_lower(group.name)] = &group;
    }
    DayIndex index;
    for (const LogRide& ride : rides.rides) {
        RideGroup& group = *by_name[input::to_lower(name_group(rides, ride))];
        add_ride(ride.race ? group.races : group.training, index, ride);
    }
    if (grouped.by_inner) return grouped;
    const auto most =
        std::max_element(grouped.groups.begin(), grouped.groups.end(),
                         [](const RideGroup& a, const RideGroup& b) {
                             return a.training.distance_m < b.training.distance_m;
                         });
    std::rotate(grouped.groups.begin(), most, most + 1);
    return grouped;
}

}  // namespace flattail::evidence

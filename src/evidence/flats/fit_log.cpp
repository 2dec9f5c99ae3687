// From the rows of a log to what is believed of rates and repairs.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

#include "evidence/flats/exact_rates.h"
#include "evidence/flats/group_rides.h"
#include "evidence/flats/race_factor.h"
#include "evidence/flats/repair_posterior.h"
#include "flattail/flat_log.h"

namespace flattail {

namespace {

using namespace evidence;

// A rear wheel takes a minute longer (common practice); logs do not say which it was.
constexpr double kRearExtra_s = 60.0 * physics::kRearFlatShare;

double find_clump_shape(double clumping) {
    // Below this the day's factor could not be told from 1.
    constexpr double kLeast = 1.001;
    return clumping > kLeast ? physics::solve_clump_shape(clumping)
                             : std::numeric_limits<double>::infinity();
}

void check_options(const FlatLogOptions& options, base::ProblemList& problems) {
    const auto check = [&](double value, double least, double most, const char* what,
                           const char* unit) {
        if (value >= least && value <= most) return;
        problems.add_error({}, fmt::format("{} is {:g}{}", what, value, unit),
                           fmt::format("write {:g} to {:g}{}", least, most, unit));
    };
    check(options.clumping, 1.0, 5.0, "the clumping of flats", "");
    check(options.race_m / 1000.0, 0.1, 2000.0, "the race's length", " km");
    check(options.repair_s / 60.0, 0.2, 240.0, "the repair time", " min");
}

// A front wheel's share of a repair that may have been either.
double to_front_wheel(double time_s) {
    return std::max(time_s - kRearExtra_s, 0.5 * time_s);
}

void add_distance(std::vector<NamedDistance>& list, const std::string& name,
                  double distance_m) {
    const auto known = std::find_if(
        list.begin(), list.end(), [&](const auto& entry) { return entry.name == name; });
    if (known != list.end()) {
        known->distance_m += distance_m;
    } else {
        list.push_back({name, distance_m});
    }
}

void describe_rides(const LogRides& rides, FlatLog& log) {
    constexpr std::array<const char*, 4> kSurfaces = {"smooth", "ordinary", "coarse",
                                                      "cobbles"};
    std::map<std::chrono::sys_days, int> flats;
    for (const LogRide& ride : rides.rides) {
        log.rides += ride.rides;
        log.flats += ride.flats;
        log.distance_m += ride.distance_m;
        flats[ride.day] += ride.flats;
        if (ride.wet) log.wet_m += ride.distance_m;
        const auto kind = find_tyre_kind(ride.tyre);
        if (!ride.tyre.empty()) {
            add_distance(log.tyres, kind ? name_tyre_kind(*kind) : ride.tyre,
                         ride.distance_m);
        }
        if (!rides.has_surface) continue;
        add_distance(log.surfaces, kSurfaces[static_cast<std::size_t>(ride.surface)],
                     ride.distance_m);
    }
    log.first_date = write_day(flats.begin()->first);
    log.last_date = write_day(flats.rbegin()->first);
    log.days_with_flats = std::count_if(flats.begin(), flats.end(),
                                        [](const auto& day) { return day.second > 0; });
}

void warn_of_tyres(FlatLog& log) {
    for (const NamedDistance& tyre : log.tyres) {
        if (find_tyre_kind(tyre.name)) continue;
        log.warnings.push_back(
            {{log.file, 0, 0},
             fmt::format("tyre \"{}\" is taken for a race tyre", tyre.name),
             "name tyres that differ \"thin\" or \"tough\" first, like \"tough 30 mm\"",
             Severity::kWarning});
    }
}

FlatGroup describe_group(const RideGroup& rides, const RideSum& reference,
                         double typical_rate_per_m, bool is_reference) {
    const RideSum& own = rides.training;
    FlatGroup group;
    group.name = rides.name;
    group.rides = own.rides;
    group.distance_m = own.distance_m;
    group.even_m = own.even_m;
    group.flats = own.flats;
    const Interval counts = compute_poisson_limits(own.flats);
    group.exact_per_m = {0.0, std::numeric_limits<double>::infinity()};
    if (own.even_m > 0.0) {
        group.exact_per_m = {counts.low / own.even_m, counts.high / own.even_m};
    }
    group.more_m = std::numeric_limits<double>::infinity();
    if (is_reference) return group;
    group.exact.limits = {0.0, std::numeric_limits<double>::infinity()};
    group.exact.ratio = std::numeric_limits<double>::quiet_NaN();
    if (own.even_m > 0.0 && reference.even_m > 0.0) {
        group.exact =
            compare_rates({own.flats, own.even_m}, {reference.flats, reference.even_m});
    }
    group.more_m =
        find_distance_to_tell(reference.even_m, own.even_m, typical_rate_per_m);
    return group;
}

// Correlations of the reference's rate and of each ratio, in logarithms.
std::vector<double> correlate(const RatePosterior& rates, std::size_t groups) {
    const auto together = [&](std::size_t a, std::size_t b) {
        const double both = rates.covariance(a, b);
        if (a == 0 && b == 0) return both;
        const double own = rates.covariance(0, 0);
        if (a == 0) return both - own;
        return both - rates.covariance(a, 0) - rates.covariance(b, 0) + own;
    };
    std::vector<double> matrix(groups * groups);
    std::vector<double> sd;
    for (std::size_t a = 0; a < groups; ++a) sd.push_back(std::sqrt(together(a, a)));
    for (std::size_t a = 0; a < groups; ++a) {
        for (std::size_t b = 0; b <= a; ++b) {
            const double r = a == b ? 1.0 : together(b, a) / (sd[a] * sd[b]);
            matrix[a * groups + b] = matrix[b * groups + a] = r;
        }
    }
    return matrix;
}

RideSum add_up(const std::vector<RideGroup>& groups, RideSum RideGroup::*part) {
    RideSum sum;
    for (const RideGroup& group : groups) {
        const RideSum& own = group.*part;
        sum.rides += own.rides;
        sum.distance_m += own.distance_m;
        sum.even_m += own.even_m;
        sum.flats += own.flats;
    }
    return sum;
}

void describe_races(const std::vector<RideGroup>& groups, const RaceFactor& factor,
                    FlatLog& log) {
    const RideSum races = add_up(groups, &RideGroup::races);
    const RideSum training = add_up(groups, &RideGroup::training);
    log.races.rides = races.rides;
    log.races.distance_m = races.distance_m;
    log.races.even_m = races.even_m;
    log.races.flats = races.flats;
    log.races.factor = summarise_weights(factor.grid, factor.weights);
    log.races.exact.ratio = std::numeric_limits<double>::quiet_NaN();
    log.races.exact.limits = {0.0, std::numeric_limits<double>::infinity()};
    if (races.even_m > 0.0 && training.even_m > 0.0) {
        log.races.exact =
            compare_rates({races.flats, races.even_m}, {training.flats, training.even_m});
    }
}

void fit_groups(const std::vector<RideGroup>& groups, FlatLog& log) {
    const RatePrior prior;
    const double shape = find_clump_shape(log.options.clumping);
    std::vector<std::vector<double>> likelihood;
    for (const RideGroup& group : groups) {
        likelihood.push_back(
            compute_log_likelihood(group.training.days, shape, prior.rates()));
    }
    const RatePosterior rates(prior, likelihood);
    RaceFactor factor = start_race_factor();
    for (std::size_t g = 0; g < groups.size(); ++g) {
        learn_from_races(factor, groups[g].races.days, shape, rates.rates(),
                         rates.weights(g));
    }
    const double typical = summarise_weights(rates.rates(), rates.weights(0)).mean;
    for (std::size_t g = 0; g < groups.size(); ++g) {
        FlatGroup group = describe_group(groups[g], groups[0].training, typical, g == 0);
        group.rate_per_m = summarise_weights(rates.rates(), rates.weights(g));
        group.ratio = g == 0 ? Belief{1.0, 0.0, 1.0, 1.0, 1.0} : rates.compare(g, 0);
        const RaceChances race = predict_race(factor, rates.rates(), rates.weights(g),
                                              shape, log.options.race_m);
        group.flat_in_race = 1.0 - race.none;
        group.two_flats_in_race = std::max(1.0 - race.none - race.one, 0.0);
        log.groups.push_back(std::move(group));
    }
    log.together = correlate(rates, groups.size());
    describe_races(groups, factor, log);
}

FlatLog fit_table(const std::optional<input::CsvTable>& table,
                  const FlatLogOptions& options, base::ProblemList& problems) {
    problems.throw_if_errors();
    const LogRides rides = read_log_rows(*table, problems);
    if (!problems.has_errors() && rides.rides.empty()) {
        problems.add_error({table->file, 0, 0}, "has no ride with a distance",
                           "write at least one row with a distance above 0");
    }
    problems.throw_if_errors();
    FlatLog log;
    log.file = table->file;
    log.options = options;
    for (const Problem& problem : problems.all()) log.warnings.push_back(problem);
    describe_rides(rides, log);
    warn_of_tyres(log);
    const GroupedRides grouped = group_rides(rides);
    log.by_inner = grouped.by_inner;
    fit_groups(grouped.groups, log);
    std::vector<double> times_s;
    for (const LogRide& ride : rides.rides) {
        for (const double time_s : ride.repairs_s) {
            times_s.push_back(to_front_wheel(time_s));
        }
    }
    RepairBeliefs beliefs;
    beliefs.median_s = options.repair_s;
    log.repairs = fit_repairs(times_s, beliefs);
    return log;
}

}  // namespace

std::optional<double> read_length(const std::string& text) {
    const auto length_m = input::parse_quantity(text, input::Dimension::kLength);
    return length_m ? std::optional(*length_m) : std::nullopt;
}

FlatLog read_flat_log(const std::string& path, const FlatLogOptions& options) {
    base::ProblemList problems;
    check_options(options, problems);
    problems.throw_if_errors();
    return fit_table(input::read_csv(path, problems), options, problems);
}

FlatLog read_flat_log_text(std::string text, const std::string& name,
                           const FlatLogOptions& options) {
    base::ProblemList problems;
    check_options(options, problems);
    problems.throw_if_errors();
    return fit_table(input::read_csv_text(std::move(text), name, problems), options,
                     problems);
}

}  // namespace flattail

#include "scenario/defaults.h"

#include <algorithm>

#include "base/expects.h"
#include "course/request.h"
#include "physics/flat_hazard.h"

namespace flattail::scenario {

namespace {

using input::Dimension;
using enum Form;
using enum Scale;
using enum Layer;
using enum Dimension;

constexpr Origin kCommon = Origin::kCommonPractice;
constexpr Origin kAssumed = Origin::kAssumption;
constexpr Origin kPublishedValue = Origin::kPublished;

constexpr const char* kCommonWords = "common practice";
constexpr const char* kAssumedWords = "assumption";

Usual certainly(double value, Origin origin = kAssumed, std::string source = {}) {
    if (source.empty()) source = origin == kCommon ? kCommonWords : kAssumedWords;
    return {kCertain, value, value, value, origin, std::move(source)};
}

Usual evenly(double low, double mid, double high, Origin origin = kAssumed,
             std::string source = {}) {
    if (source.empty()) source = origin == kCommon ? kCommonWords : kAssumedWords;
    return {kNormalRange, low, mid, high, origin, std::move(source)};
}

Usual by_factors(double low, double mid, double high, Origin origin = kAssumed,
                 std::string source = {}) {
    Usual usual = evenly(low, mid, high, origin, std::move(source));
    usual.form = kLognormalRange;
    return usual;
}

// clang-format off
void add_rider(std::vector<Spec>& table) {
    table.insert(table.end(), {
        {"rider.mass", "rider", kMass, kKilogram, kPositive, kKnowledge, 25, 250,
         "write the rider's mass without the bicycle, like \"70 kg\""},
        {"rider.bicycle", "bicycle", kMass, kKilogram, kPositive, kKnowledge, 4, 40,
         "write the bicycle's mass, like \"9.5 kg\"", evenly(8, 9.5, 11, kCommon)},
        {"rider.clothing", "clothing and bottles", kMass, kKilogram, kSigned, kKnowledge, 0, 20,
         "write what is worn and carried, like \"3 kg\"", evenly(1.5, 3, 4.5, kCommon)},
        {"rider.power", "power", kPower, kWatt, kPositive, kLuck, 20, 800,
         "write the mean power of the whole ride, like \"200 W\""},
        {"rider.bad_day.chance", "chance of a bad day", kProbability, kPercent, kChance, kKnowledge, 0, 100,
         "write a chance from 0 to 1, like \"5 %\"", by_factors(2, 5, 10)},
        {"rider.bad_day.loss", "power lost on a bad day", kRatio, kPercent, kChance, kLuck, 0, 60,
         "write a share of the power, like \"10 %\"", evenly(5, 10, 15)},
        {"rider.fade", "fade", kRatioPerTime, kPercentPerHour, kSigned, kLuck, 0, 30,
         "write the power lost per hour, like \"2 % per h\"", by_factors(.6, 2, 6, kCommon, "common practice, by the length of the course")},
        {"rider.fade_from", "fade begins after", kTime, kHour, kPositive, kKnowledge, 0, 48,
         "write a time like \"1 h\"", certainly(1, kCommon)},
        {"rider.drag_area", "drag area", kArea, kSquareMetre, kPositive, kKnowledge, 0.1, 0.8,
         "write CdA of rider and bicycle, like \"0.27 m2\"", evenly(.88 * .33, .33, 1.12 * .33, kCommon, "common practice, by position")},
        {"rider.drivetrain", "drivetrain efficiency", kRatio, kPercent, kChance, kKnowledge, 80, 100,
         "write a share like \"97.6 %\"", certainly(97.6, kPublishedValue, "Martin et al. 1998 (from memory)")},
        {"rider.power_variation", "slow variation of power", kRatio, kPercent, kChance, kKnowledge, 0, 20,
         "write a share like \"2 %\"", certainly(2)},
        {"repair.median", "repair time", kTime, kMinute, kPositive, kLuck, 0.2, 120,
         "write the time from standing still to riding again, like \"8 min\"", by_factors(5.6, 8, 10.4, kCommon)},
        {"repair.day_factor", "luck of one repair", kNumber, kNoUnit, kPositive, kLuck, 0.01, 100,
         "write a factor", certainly(1, kCommon)},
    });
}

void add_weather(std::vector<Spec>& table) {
    table.insert(table.end(), {
        {"weather.temperature", "temperature", kTemperature, kCelsius, kSigned, kLuck, -20, 50,
         "write the forecast, like \"16 C\"", certainly(15)},
        {"weather.temperature_error", "temperature off the forecast, 9 in 10 within", kTemperatureDifference, kKelvinStep, kSigned, kLuck, 0, 15,
         "write a difference like \"2 C\"", certainly(2)},
        {"weather.wind", "wind at 10 m height", kSpeed, kKilometrePerHour, kPositive, kLuck, 0, 100,
         "write the forecast mean wind, like \"13 km/h\"", certainly(10)},
        {"weather.wind_error", "wind off the forecast, 9 in 10 within", kRatio, kPercent, kChance, kLuck, 0, 90,
         "write a share like \"35 %\"", certainly(35)},
        {"weather.direction_error", "direction off the forecast, 9 in 10 within", kAngle, kDegree, kSigned, kLuck, 0, 180,
         "write an angle like \"25 deg\"", certainly(25)},
        {"weather.gust", "gust / mean wind", kNumber, kNoUnit, kPositive, kKnowledge, 1, 5,
         "write a gust speed like \"30 km/h\" or a factor like 1.5", certainly(1.5)},
        {"weather.gust_length", "reach of one gust along the road", kLength, kMetre, kPositive, kKnowledge, 50, 5000,
         "write a length like \"500 m\"", certainly(500)},
        {"weather.pressure", "air pressure at the start", kPressure, kHectopascal, kPositive, kKnowledge, 500, 1100,
         "write the pressure at the place itself, not reduced to the sea: \"1005 hPa\"", certainly(1013.25, kPublishedValue, "ISO 2533 at the height of the start")},
        {"weather.humidity", "relative humidity", kProbability, kPercent, kChance, kKnowledge, 0, 100,
         "write a share like \"60 %\"", certainly(60)},
        {"weather.rain", "chance of a wet road", kProbability, kPercent, kChance, kKnowledge, 0, 100,
         "write a chance like \"20 %\"", certainly(10)},
    });
}

void add_road(std::vector<Spec>& table) {
    table.insert(table.end(), {
        {"road.shelter", "rider wind / wind at 10 m", kNumber, kNoUnit, kPositive, kKnowledge, 0, 1.5,
         "write \"open\", \"hedged\", \"wood\" or a number like 0.65", certainly(course::kOpenShelter)},
        {"road.shelter_error", "shelter off the truth, 9 in 10 within", kRatio, kPercent, kChance, kKnowledge, 0, 90,
         "write a share like \"23 %\"", certainly(23)},
        {"road.debris", "cuts / those of an ordinary road", kNumber, kNoUnit, kPositive, kKnowledge, 0, 50,
         "write a factor like 2", certainly(1)},
        {"road.speed_cap", "highest speed", kSpeed, kKilometrePerHour, kPositive, kKnowledge, 5, 130,
         "write a speed like \"40 km/h\"", certainly(130)},
        {"road.crr.smooth", "Crr on a smooth road", kRatio, kNoUnit, kPositive, kKnowledge, .001, .05,
         "write a coefficient like 0.0038", by_factors(.0038 * .85, .0038, .0038 * 1.15, kCommon)},
        {"road.crr.ordinary", "Crr on an ordinary road", kRatio, kNoUnit, kPositive, kKnowledge, .001, .05,
         "write a coefficient like 0.0045", by_factors(.0045 * .85, .0045, .0045 * 1.15, kCommon)},
        {"road.crr.coarse", "Crr on a coarse road", kRatio, kNoUnit, kPositive, kKnowledge, .001, .05,
         "write a coefficient like 0.006", by_factors(.0060 * .85, .0060, .0060 * 1.15, kCommon)},
        {"road.crr.cobbles", "Crr on cobbles", kRatio, kNoUnit, kPositive, kKnowledge, .001, .08,
         "write a coefficient like 0.011", by_factors(.008, .011, .018, kCommon)},
        {"road.wet_rolling", "rolling on a wet road / dry", kNumber, kNoUnit, kPositive, kKnowledge, .5, 2,
         "write a factor like 1.05", by_factors(1.0, 1.05, 1.15)},
        {"road.wet_speed", "corner speed on a wet road / dry", kNumber, kNoUnit, kPositive, kKnowledge, .3, 1,
         "write a factor like 0.8", certainly(.8)},
        {"road.lateral_limit", "sideways acceleration in corners", kAcceleration, kMetrePerSecondSquared, kPositive, kKnowledge, 1, 12,
         "write an acceleration like \"4 m/s2\"", certainly(course::kLateralLimit_m_s2)},
        {"road.braking", "braking before corners", kAcceleration, kMetrePerSecondSquared, kPositive, kKnowledge, .5, 8,
         "write a deceleration like \"3 m/s2\"", certainly(course::kBrake_m_s2)},
        {"road.descent_cap", "speed above which the rider brakes", kSpeed, kKilometrePerHour, kPositive, kKnowledge, 20, 130,
         "write a speed like \"75 km/h\"", certainly(course::kDescentCap_m_s * 3.6)},
    });
}

void add_flats(std::vector<Spec>& table) {
    table.insert(table.end(), {
        {"flats.training", "flats in training", kRatePerDistance, kPerThousandKilometres, kPositive, kKnowledge, 0, 50,
         "write a rate like \"1 per 2500 km\" or { flats = 3, distance = \"4000 km\" }", by_factors(1000.0 / 6000, 1000.0 / 2500, 1, kCommon)},
        {"flats.race_factor", "flat rate racing / training", kNumber, kNoUnit, kPositive, kKnowledge, 0, 20,
         "write a factor like 0.8", by_factors(.4, physics::kRaceFactor, 1.3)},
        {"flats.clumping", "factor of a day's flat rate", kNumber, kNoUnit, kPositive, kKnowledge, 1, 5,
         "write a factor from 1 (never clumped) to 5: two days in three lie within it", certainly(1.8)},
        {"flats.wet_factor", "flat rate wet / dry", kNumber, kNoUnit, kPositive, kKnowledge, 0, 20,
         "write a factor like 1.7", by_factors(1.1, 1.7, 3)},
        {"flats.rear_share", "share of flats at the rear", kRatio, kPercent, kChance, kKnowledge, 0, 100,
         "write a share like \"67 %\"", evenly(55, 100 * physics::kRearFlatShare, 80, kCommon)},
        {"flats.pinch_share", "share of flats that are pinches", kRatio, kPercent, kChance, kKnowledge, 0, 100,
         "write a share like \"12 %\"", by_factors(5, 100 * physics::kPinchShare, 25)},
        {"flats.rough_pinch_factor", "pinches on a rough road / ordinary", kNumber, kNoUnit, kPositive, kKnowledge, 0, 20,
         "write a factor like 3", certainly(3)},
        {"flats.at_speed", "a flat counts as at speed above", kSpeed, kKilometrePerHour, kPositive, kKnowledge, 1, 130,
         "write a speed like \"40 km/h\"", certainly(40)},
    });
}

void add_repair(std::vector<Spec>& table) {
    table.insert(table.end(), {
        {"repair.first_try_fails", "first try of a repair fails", kProbability, kPercent, kChance, kKnowledge, 0, 100,
         "write a chance like \"12 %\"", by_factors(6, 12, 24)},
        {"repair.tyre_destroyed", "a flat destroys the tyre", kProbability, kPercent, kChance, kKnowledge, 0, 100,
         "write a chance like \"4 %\"", by_factors(2, 4, 8)},
        {"repair.rear_extra", "a rear wheel takes longer by", kTime, kSecond, kPositive, kKnowledge, 0, 1800,
         "write a time like \"1 min\"", certainly(60, kCommon)},
        {"repair.tubeless_factor", "tubeless to tube / tube to tube", kNumber, kNoUnit, kPositive, kKnowledge, .3, 5,
         "write a factor like 1.3", certainly(1.3, kCommon)},
        {"repair.notice", "from the flat to the brakes", kTime, kSecond, kPositive, kKnowledge, 0, 600,
         "write a time like \"5 s\"", certainly(5)},
        {"repair.help_chance", "officials reach the rider", kProbability, kPercent, kChance, kKnowledge, 0, 100,
         "write a chance like \"50 %\"", evenly(20, 50, 80)},
        {"repair.help_wait", "wait for officials", kTime, kMinute, kPositive, kLuck, 0, 600,
         "write a time like \"25 min\"", by_factors(8, 25, 70)},
        {"preparation.gauge", "gauge of the pump, off the truth", kPressure, kPsi, kSigned, kLuck, -15, 15,
         "write \"own\", \"stranger's\" or a pressure within which 9 in 10 lie", evenly(-2, 0, 2, kCommon)},
    });
}

void add_decision(std::vector<Spec>& table) {
    table.insert(table.end(), {
        {"decision.matters", "a difference that matters", kTime, kSecond, kPositive, kKnowledge, 0, 3600,
         "write a time like \"15 s\"", certainly(15, kCommon)},
        {"decision.no_finish_costs", "a day without a finish costs", kTime, kMinute, kPositive, kKnowledge, 0, 6000,
         "write a time like \"1 h\"", certainly(60)},
        {"decision.losing", "losing long means", kTime, kMinute, kPositive, kKnowledge, .1, 600,
         "write a time like \"5 min\"", certainly(5, kCommon)},
        {"race.official_distance", "official distance", kLength, kKilometre, kPositive, kKnowledge, .2, 2000,
         "write a length like \"90 km\"", certainly(0)},
        {"race.speed_limit", "speed limit", kSpeed, kKilometrePerHour, kPositive, kKnowledge, 5, 130,
         "write a speed like \"40 km/h\"", certainly(130)},
        {"race.position_error", "error of recorded positions", kLength, kMetre, kPositive, kKnowledge, .1, 50,
         "write a length like \"3 m\"", certainly(course::kPositionError_m, kCommon)},
        {"race.height_error", "error of recorded heights", kLength, kMetre, kPositive, kKnowledge, .05, 50,
         "write a length like \"1.5 m\"", certainly(course::kHeightError_m, kCommon)},
    });
}
// clang-format on

std::vector<Spec> make_table() {
    std::vector<Spec> table;
    add_rider(table);
    add_weather(table);
    add_road(table);
    add_flats(table);
    add_repair(table);
    add_decision(table);
    return table;
}

}  // namespace

const std::vector<Spec>& all_specs() {
    static const std::vector<Spec> kTable = make_table();
    return kTable;
}

const Spec& find_spec(std::string_view name) {
    const std::vector<Spec>& table = all_specs();
    const auto it = std::find_if(table.begin(), table.end(),
                                 [&](const Spec& spec) { return spec.name == name; });
    FLATTAIL_EXPECTS(it != table.end());
    return *it;
}

Spec with_usual(const Spec& spec, Form form, double low, double mid, double high) {
    Spec changed = spec;
    changed.usual.form = form;
    changed.usual.low = low;
    changed.usual.mid = mid;
    changed.usual.high = high;
    return changed;
}

}  // namespace flattail::scenario

// The rows of the table of defaults, as they stand in the sources.
#pragma once

#include <span>
#include <string_view>

#include "scenario/values/spec.h"

namespace flattail::scenario {

/// A default as it stands in a row; an empty source is that of its origin.
struct RowUsual {
    Form form = Form::kRequired;
    double low = 0.0;
    double mid = 0.0;
    double high = 0.0;
    Origin origin = Origin::kAssumption;
    std::string_view source = {};
};

/// One value that a scenario may state; see Spec. Numbers are in the printed unit.
struct DefaultRow {
    std::string_view name;
    std::string_view label;
    input::Dimension dimension;
    Unit unit;
    Scale scale;
    Layer layer;
    double least;
    double most;
    std::string_view advice;
    RowUsual usual = {};
};

constexpr RowUsual certainly(double value, Origin origin = Origin::kAssumption,
                             std::string_view source = {}) {
    return {Form::kCertain, value, value, value, origin, source};
}

/// The 5 %, 50 % and 95 % points, filled by halves of normal distributions.
constexpr RowUsual evenly(double low, double mid, double high,
                          Origin origin = Origin::kAssumption,
                          std::string_view source = {}) {
    return {Form::kNormalRange, low, mid, high, origin, source};
}

/// The same, filled in the logarithm.
constexpr RowUsual by_factors(double low, double mid, double high,
                              Origin origin = Origin::kAssumption,
                              std::string_view source = {}) {
    return {Form::kLognormalRange, low, mid, high, origin, source};
}

std::span<const DefaultRow> rider_rows();
std::span<const DefaultRow> weather_rows();
std::span<const DefaultRow> road_rows();
std::span<const DefaultRow> flats_rows();
std::span<const DefaultRow> repair_rows();
std::span<const DefaultRow> decision_rows();

}  // namespace flattail::scenario

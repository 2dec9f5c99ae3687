// An uncertain value as a person writes it, turned into distributions.
#pragma once

#include <optional>

#include "base/problem_list.h"
#include "flattail/uncertain.h"
#include "input/toml/document.h"
#include "scenario/values/spec.h"

namespace flattail::scenario {

/// What a statement says about one value. Without luck it is the same every day.
struct StatedValue {
    Distribution knowledge;
    Distribution luck;
    Deviation deviation = Deviation::kNone;
    // Where the values are rows of a file: the address they share, and the file.
    std::string draw_name = {};
    std::string file = {};
};

/// Reads a plain quantity (certain) or a table: { mean, sd }, { median, spread },
/// { low, high }, { low, mid, high }, { flats, distance }, { samples, column }, each with
/// an optional `kind`
/// and the ranges with an optional `shape`. A mean or median that is itself a table is
/// what we do not know, and the outer spread is what changes each day.
/// Units:   SI
/// Errors:  nothing after adding problems; the middle and both ends of a 90 % range must
///          lie inside the limits of the spec, and what is drawn is cut to them
StatedValue make_stated_point(double value);
std::optional<StatedValue> read_stated_value(const input::Node& node, const Spec& spec,
                                             base::ProblemList& problems);

/// The default of a spec in SI. The spec must have one.
StatedValue make_usual_value(const Spec& spec);

/// Nine values in ten lie between low and high, half of all below mid; in SI.
struct Summary {
    double low = 0.0;
    double mid = 0.0;
    double high = 0.0;
};

/// The 5 %, 50 % and 95 % points of knowledge and luck together.
/// Accuracy: exact with one layer; .5 % of the spread with two
Summary summarise(const Distribution& knowledge, const Distribution& luck,
                  Deviation deviation);

}  // namespace flattail::scenario

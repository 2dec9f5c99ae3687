// The road and the day's forecast as the kernel wants them: made once per scenario.
#pragma once

#include <vector>

#include "course/segments.h"
#include "ride/kernel/lane_terms.h"
#include "ride/yaw_road.h"
#include "scenario/model.h"

namespace flattail::ride {

/// A cutoff between two segments: closed to who comes later.
struct Gate {
    int segment = 0;  // the first one behind it; the number of segments at the finish
    double within_s = 0.0;  // after the start of the ride
    double clock_s = 0.0;   // local clock

    bool is_late(double time_s, double start_clock_s) const {
        return time_s > within_s || time_s > clock_s - start_clock_s;
    }
};

struct Road {
    std::vector<course::Segment> segments;  // the first ends at kLaunchM
    std::vector<SegmentTerms> terms;        // one per segment
    std::vector<int> mark_segment;  // first segment after each mark; rising from 0
    std::vector<double> mark_m;     // middle of the stretch that a mark stands for
    std::vector<Gate> gates;        // one per cutoff of the race, in their order
    Forecast forecast;
    YawRoad yaw;
    // Pressure moves slowly: it is read at every fifth mark, about every 10 km, or at
    // every tenth where the day keeps one temperature.
    int marks_per_pressure = 5;
    std::vector<double> typical_s;  // of the typical rider at each segment and the finish
    RefreshTerms refresh;           // `forecast` in it is set by who uses it

    YawStretch yaw_at(std::size_t mark) const {
        return yaw.is_used() ? yaw.at(mark) : YawStretch{};
    }
    int count() const { return static_cast<int>(terms.size()); }
    bool is_pressure_mark(int mark) const { return mark % marks_per_pressure == 0; }
    /// Half of the time that a typical rider takes from a segment to the next pressure
    /// mark, or to the finish.
    double half_way_s(int segment) const;
};

/// A forecast value at a local clock.
double read_forecast(const Forecast& forecast, const ForecastCurve& curve,
                     double clock_s);

/// Splits the course and prepares terms, marks, forecast and pacing. The pacing is scaled
/// so that a typical ride's mean power is the stated one.
/// Accuracy: mean power within .1 % of the stated for the typical rider
Road build_road(const scenario::Model& model);

/// The typical rider of a scenario: every input at its median.
course::TypicalRider find_typical_rider(const scenario::Model& model);

/// The median of an input.
double find_median(const scenario::Model& model, InputId id);

}  // namespace flattail::ride

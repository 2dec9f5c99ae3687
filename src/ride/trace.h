// One ride told along the course: what the study rode, written down while it was ridden.
#pragma once

#include <vector>

#include "ride/roadside/ending.h"
#include "ride/roadside/repair.h"
#include "sampling/day_block.h"

namespace flattail::ride {

/// The rider at the end of one segment. Wind at the rider, positive from ahead; power at
/// the pedals.
struct TracePoint {
    double place_m = 0.0;
    double time_s = 0.0;
    double speed_m_s = 0.0;
    double power_w = 0.0;
    double wind_m_s = 0.0;
    double head_wind_m_s = 0.0;
    double gauge_pa[sampling::kWheels] = {};
};

enum class TraceKind { kSealed, kSlowLeak, kFlat, kSoft, kMended, kEnded };

/// Something that happened. Sealed: sealant closed a hole. Slow leak: nobody has noticed
/// yet. Flat, soft: the rider stops. Mended: rides on.
struct TraceEvent {
    TraceKind kind = TraceKind::kFlat;
    double place_m = 0.0;
    double time_s = 0.0;
    int wheel = 0;
    sampling::FlatCause cause = sampling::FlatCause::kCut;
    Stop stop;  // kMended and kEnded by a flat
    Ending ending = Ending::kFinished;
    bool at_speed = false;
};

struct RideTrace {
    std::vector<TracePoint> points;  // by place
    std::vector<TraceEvent> events;
    double start_clock_s = 0.0;
};

}  // namespace flattail::ride

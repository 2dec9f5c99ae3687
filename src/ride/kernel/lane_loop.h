// Tells the compiler that the lanes of the next loop do not depend on each other.
#pragma once

#if defined(__clang__)
#define FLATTAIL_LANE_LOOP _Pragma("clang loop vectorize(assume_safety)")
#else
#define FLATTAIL_LANE_LOOP _Pragma("GCC ivdep")
#endif

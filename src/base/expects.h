// Checks of our own promises: on in dev and sanitizer builds, gone in release builds.
#pragma once

#include <string>

#include "flattail/problem.h"

namespace flattail::base {

[[noreturn]] inline void fail_promise(const char* rule, const char* file, int line) {
    throw OurMistake(std::string(file) + ':' + std::to_string(line) +
                     ": broken promise: " + rule);
}

}  // namespace flattail::base

#if defined(FLATTAIL_CHECK_PROMISES)
#define FLATTAIL_EXPECTS(rule)     \
    ((rule) ? static_cast<void>(0) \
            : ::flattail::base::fail_promise(#rule, __FILE__, __LINE__))
#else
#define FLATTAIL_EXPECTS(rule) static_cast<void>(0)
#endif
#define FLATTAIL_ENSURES(rule) FLATTAIL_EXPECTS(rule)

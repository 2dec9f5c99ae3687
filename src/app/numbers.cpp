#include "app/numbers.h"

namespace flattail::app {

double read_within(const std::string& text) {
    double seconds = 0.0;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, seconds);
    std::string unit(stop, end);
    unit.erase(0, unit.find_first_not_of(' '));
    if (error == std::errc{} && unit == "s" && seconds > 0.0) return seconds;
    throw InvalidInput({{{"flattail race", 0, 0},
                         fmt::format("--within is '{}', not a time in seconds", text),
                         "write --within 1s"}});
}

}  // namespace flattail::app

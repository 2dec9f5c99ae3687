#include "study/replay/ride_words.h"

#include <fmt/format.h>

#include <cmath>

#include "study/listing/endings.h"

namespace flattail::study {

namespace {

const char* name_wheel(int wheel) { return wheel == 0 ? "front" : "rear"; }

const char* name_cause(sampling::FlatCause cause) {
    switch (cause) {
        case sampling::FlatCause::kCut:
            return "a cut";
        case sampling::FlatCause::kPinch:
            return "a pinched tube";
        case sampling::FlatCause::kFitting:
            return "a fitting fault";
    }
    return "";
}

const char* name_means(ride::Means means) {
    switch (means) {
        case ride::Means::kTube:
            return "tube changed";
        case ride::Means::kPlug:
            return "tyre plugged";
        case ride::Means::kSealantCan:
            return "closed by a sealant can";
        case ride::Means::kPatch:
            return "tube patched";
        case ride::Means::kTopUp:
            return "topped up";
        case ride::Means::kCar:
            return "wheel from the following car";
        case ride::Means::kOfficials:
            return "wheel from officials";
        case ride::Means::kNone:
            break;
    }
    return "not mended";
}

std::string write_minutes(double seconds) {
    const auto whole = static_cast<int>(std::lround(seconds));
    return fmt::format("{}:{:02}", whole / 60, whole % 60);
}

std::string describe_stop(const ride::Stop& stop) {
    std::string text = fmt::format("{} in {} min", name_means(stop.means),
                                   write_minutes(stop.standing_s));
    if (stop.tries > 1) text += fmt::format(", {} tries", stop.tries);
    if (stop.booted) text += ", a boot in the tyre";
    return text;
}

}  // namespace

std::string describe_event(const ride::TraceEvent& event) {
    const char* wheel = name_wheel(event.wheel);
    switch (event.kind) {
        case ride::TraceKind::kSealed:
            return fmt::format("{}: sealant closed {}", wheel, name_cause(event.cause));
        case ride::TraceKind::kSlowLeak:
            return fmt::format("{}: {} that leaks slowly, not noticed yet", wheel,
                               name_cause(event.cause));
        case ride::TraceKind::kFlat:
            return fmt::format("{} flat: {}{}", wheel, name_cause(event.cause),
                               event.at_speed ? ", at speed" : "");
        case ride::TraceKind::kSoft:
            return fmt::format("{} tyre soft: {}", wheel, name_cause(event.cause));
        case ride::TraceKind::kMended:
            return fmt::format("{}: {}", wheel, describe_stop(event.stop));
        case ride::TraceKind::kEnded:
            return fmt::format("out of the race: {}", name_ending(event.ending));
    }
    return "";
}

}  // namespace flattail::study

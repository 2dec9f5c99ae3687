#include "publish/pictures/label_width.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "publish/pages/text.h"

namespace flattail::publish {

namespace {

// Parts of the type size.
constexpr double kNarrow = 0.36;
constexpr double kOrdinary = 0.62;
constexpr double kCapital = 0.77;
constexpr double kBroad = 1.02;
constexpr double kFullWidth = 1.1;  // East Asian characters and emoji

double width_of_ascii(char c) {
    constexpr std::string_view kNarrowLetters = "ijlt.,:;'|!()[]/ I1fr-";
    constexpr std::string_view kBroadLetters = "mwMW@%";
    if (kNarrowLetters.find(c) != std::string_view::npos) return kNarrow;
    if (kBroadLetters.find(c) != std::string_view::npos) return kBroad;
    return c >= 'A' && c <= 'Z' ? kCapital : kOrdinary;
}

}  // namespace

double estimate_width_px(const std::string& text, double size_px) {
    double ems = 0.0;
    for (std::size_t at = 0; at < text.size();) {
        std::size_t end = at + 1;
        while (end < text.size() &&
               (static_cast<unsigned char>(text[end]) & 0xC0u) == 0x80u)
            ++end;
        if (end == at + 1) {
            ems += width_of_ascii(text[at]);
        } else {
            const int columns = measure_width(text.substr(at, end - at));
            ems += columns == 2 ? kFullWidth : columns * kCapital;
        }
        at = end;
    }
    return ems * size_px;
}

std::vector<std::string> fit_names(const std::vector<std::string>& names, double size_px,
                                   double width_px) {
    // A column is at least as wide as the narrowest letter.
    int columns = static_cast<int>(width_px / (kNarrow * size_px));
    std::vector<std::string> fitted;
    const auto fits = [&](const std::string& name) {
        return estimate_width_px(name, size_px) <= width_px;
    };
    do {
        fitted = shorten_names(names, columns);
        --columns;
    } while (columns > 4 && !std::all_of(fitted.begin(), fitted.end(), fits));
    return fitted;
}

std::string fit_text(const std::string& text, double size_px, double width_px) {
    return fit_names({text}, size_px, width_px).front();
}

}  // namespace flattail::publish

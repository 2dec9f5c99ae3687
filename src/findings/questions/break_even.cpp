#include "findings/questions/break_even.h"

#include <cmath>

namespace flattail::findings {

namespace {

// Where the straight line from (x0, y0) to (x1, y1) meets 0; y0 and y1 differ in sign.
double meet_zero(double x0, double y0, double x1, double y1) {
    return x0 + (x1 - x0) * y0 / (y0 - y1);
}

int sign_of(double y) { return y > 0 ? 1 : y < 0 ? -1 : 0; }

// -1 or 1 where the difference is told from 0, else 0.
int decided_sign(const ScanPoint& point, double factor) {
    const double margin = factor * point.difference.standard_error;
    if (point.difference.value > margin) return 1;
    return point.difference.value < -margin ? -1 : 0;
}

// Edge of the undecided stretch between a decided point and its neighbour: where the
// nearer limit of the difference, value -+ margin, meets 0.
double find_edge(const ScanPoint& decided, const ScanPoint& next, double factor) {
    const double toward = decided.difference.value > 0 ? -factor : factor;
    const double y0 =
        decided.difference.value + toward * decided.difference.standard_error;
    const double y1 = next.difference.value + toward * next.difference.standard_error;
    return meet_zero(decided.x, y0, next.x, y1);
}

// Points first to last, the ones between decided neighbours (or the ends of the range).
struct Stretch {
    std::size_t first = 0, last = 0;
    int before = 0, after = 0;  // decided signs beside it; 0 at an end of the range
};

int first_sign(std::span<const ScanPoint> scan, const Stretch& stretch) {
    for (std::size_t i = stretch.first; i <= stretch.last; ++i) {
        if (sign_of(scan[i].difference.value) != 0)
            return sign_of(scan[i].difference.value);
    }
    return 0;
}

int last_sign(std::span<const ScanPoint> scan, const Stretch& stretch) {
    for (std::size_t i = stretch.last + 1; i-- > stretch.first;) {
        if (sign_of(scan[i].difference.value) != 0)
            return sign_of(scan[i].difference.value);
    }
    return 0;
}

// The middle one of the sign changes from `first` to `last`; a point that is 0 to the bit
// is the change itself.
double find_middle_change(std::span<const ScanPoint> scan, std::size_t first,
                          std::size_t last) {
    std::vector<double> changes;
    const ScanPoint* signed_point = nullptr;
    const ScanPoint* zero = nullptr;
    for (std::size_t i = first; i <= last; ++i) {
        const double y = scan[i].difference.value;
        if (sign_of(y) == 0) {
            zero = &scan[i];
            continue;
        }
        if (signed_point != nullptr &&
            sign_of(signed_point->difference.value) != sign_of(y)) {
            changes.push_back(zero != nullptr ? zero->x
                                              : meet_zero(signed_point->x,
                                                          signed_point->difference.value,
                                                          scan[i].x, y));
        }
        signed_point = &scan[i];
        zero = nullptr;
    }
    return changes.empty() ? scan[first].x : changes[changes.size() / 2];
}

void add_crossing(std::span<const ScanPoint> scan, const Stretch& stretch, double factor,
                  std::vector<BreakEvenPoint>& found) {
    const int before = stretch.before != 0 ? stretch.before : first_sign(scan, stretch);
    const int after = stretch.after != 0 ? stretch.after : last_sign(scan, stretch);
    if (before == after || before == 0 || after == 0) return;
    const std::size_t from = stretch.before != 0 ? stretch.first - 1 : stretch.first;
    const std::size_t to = stretch.after != 0 ? stretch.last + 1 : stretch.last;
    BreakEvenPoint point;
    point.rises = after > 0;
    point.x = find_middle_change(scan, from, to);
    point.is_open_below = stretch.before == 0;
    point.is_open_above = stretch.after == 0;
    point.interval.low = point.is_open_below
                             ? scan[from].x
                             : find_edge(scan[from], scan[from + 1], factor);
    point.interval.high =
        point.is_open_above ? scan[to].x : find_edge(scan[to], scan[to - 1], factor);
    found.push_back(point);
}

}  // namespace

std::vector<BreakEvenPoint> find_break_even(std::span<const ScanPoint> scan,
                                            double confidence) {
    FLATTAIL_EXPECTS(scan.size() >= 2);
    const double factor = normal_factor(confidence);
    std::vector<BreakEvenPoint> found;
    std::size_t first = 0;
    int before = 0;
    for (std::size_t i = 0; i < scan.size(); ++i) {
        const int sign = decided_sign(scan[i], factor);
        const bool ends = i + 1 == scan.size();
        if (sign == 0 && !ends) continue;
        // The undecided points before a decided one may be none: a sign that flips from
        // one point to the next.
        const std::size_t last = sign == 0 ? i : i - 1;
        const bool is_flip = sign != 0 && first == i && before != 0 && before != sign;
        if (is_flip) {
            BreakEvenPoint point;
            point.rises = sign > 0;
            point.x = meet_zero(scan[i - 1].x, scan[i - 1].difference.value, scan[i].x,
                                scan[i].difference.value);
            point.interval = {find_edge(scan[i - 1], scan[i], factor),
                              find_edge(scan[i], scan[i - 1], factor)};
            found.push_back(point);
        } else if (sign == 0 || first < i) {
            add_crossing(scan, {first, last, before, sign}, factor, found);
        }
        first = i + 1;
        before = sign;
    }
    return found;
}

}  // namespace flattail::findings

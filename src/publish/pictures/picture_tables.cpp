#include "publish/pictures/picture_tables.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>

#include "publish/tables/csv_text.h"

namespace flattail::publish {

namespace {

constexpr int kCurvePoints = 241;
// Race days in 100 at which the picture of slow days begins.
constexpr double kSlowFrom = 50.0;
// Curves carry their shape where they pass these numbers of slower race days in 100; each
// row a little lower than the one before, so that shapes do not hide each other.
constexpr std::array<double, 4> kMarks{34.0, 11.0, 3.4, 1.1};
constexpr double kNextRow = 0.86;

const SetupFindings& at(const Findings& findings, int setup) {
    return findings.setups[static_cast<std::size_t>(setup)];
}

double find_quantile(const std::vector<double>& quantiles_s, double share) {
    const double place = share * static_cast<double>(quantiles_s.size()) - 0.5;
    const double last = static_cast<double>(quantiles_s.size()) - 1.0;
    const auto i = static_cast<std::size_t>(std::clamp(std::floor(place), 0.0, last));
    const auto next = std::min(i + 1, quantiles_s.size() - 1);
    const double part = std::clamp(place - static_cast<double>(i), 0.0, 1.0);
    if (part == 0.0) return quantiles_s[i];
    if (std::isinf(quantiles_s[next])) return quantiles_s[next];
    return quantiles_s[i] + part * (quantiles_s[next] - quantiles_s[i]);
}

// Stacks of dots: bins of one dot's width, laid so that the goal is an edge.
class Stacks {
  public:
    Stacks(const TimeAxis& axis, const DotLayout& layout, double goal_s)
        : axis_(axis), goal_s_(goal_s) {
        const double plot_px = layout.width_px - 2 * layout.pad_px - layout.later_px;
        const double s_per_px = (axis.high_s - axis.low_s) / plot_px;
        bin_s_ = layout.dot_px * s_per_px;
        later_from_s_ = axis.high_s + 0.25 * layout.later_px * s_per_px;
        later_columns_ =
            std::max(1, static_cast<int>(0.75 * layout.later_px / layout.dot_px));
        const bool goal_shown = goal_s >= axis.low_s && goal_s <= axis.high_s;
        anchor_s_ = goal_shown ? goal_s : axis.low_s;
    }

    Dot place(double share, double finish_s) {
        Dot dot{100.0 * share, finish_s, 0.0, 0, DotKind::kGoalMet};
        if (std::isinf(finish_s)) {
            dot.kind = DotKind::kNoFinish;
        } else if (finish_s > goal_s_) {
            dot.kind = DotKind::kLater;
        }
        if (finish_s > axis_.high_s) {
            dot.drawn_s = later_from_s_ + (later_ % later_columns_ + 0.5) * bin_s_;
            dot.height = 1 + later_ / later_columns_;
            ++later_;
            return dot;
        }
        // A time on an edge belongs to the bin before it: the goal is then met.
        const auto bin = static_cast<int>(std::ceil((finish_s - anchor_s_) / bin_s_)) - 1;
        dot.drawn_s = anchor_s_ + (bin + 0.5) * bin_s_;
        dot.height = ++heights_[bin];
        return dot;
    }

  private:
    TimeAxis axis_;
    double goal_s_, bin_s_ = 0.0, anchor_s_ = 0.0, later_from_s_ = 0.0;
    int later_columns_ = 1, later_ = 0;
    std::map<int, int> heights_;
};

// Rule of thumb for the width of a bell laid over each value (Silverman 1986, eq. 3.31).
double choose_bandwidth_s(const std::vector<double>& finite_s) {
    const auto n = static_cast<double>(finite_s.size());
    const double quartiles_s =
        find_quantile(finite_s, 0.75) - find_quantile(finite_s, 0.25);
    return std::max(0.9 * quartiles_s / 1.34 * std::pow(n, -0.2), 1.0);
}

// Race days in 100 per minute at a finish time.
class Density {
  public:
    explicit Density(const std::vector<double>& quantiles_s)
        : per_value_(100.0 * 60.0 / static_cast<double>(quantiles_s.size())) {
        for (const double t : quantiles_s) {
            if (std::isfinite(t)) finite_s_.push_back(t);
        }
        if (!finite_s_.empty()) bandwidth_s_ = choose_bandwidth_s(finite_s_);
    }
    double at(double time_s) const {
        constexpr double kRootTwoPi = 2.5066282746310002;
        double sum = 0.0;
        for (const double t : finite_s_) {
            const double z = (time_s - t) / bandwidth_s_;
            if (std::abs(z) < 6.0) sum += std::exp(-0.5 * z * z);
        }
        return per_value_ * sum / (bandwidth_s_ * kRootTwoPi);
    }

  private:
    double per_value_;
    double bandwidth_s_ = 1.0;
    std::vector<double> finite_s_;
};

}  // namespace

std::vector<Dot> lay_dots(const std::vector<double>& quantiles_s, const TimeAxis& axis,
                          const DotLayout& layout, double goal_s) {
    Stacks stacks(axis, layout, goal_s);
    std::vector<Dot> dots;
    for (int i = 0; i < kDots; ++i) {
        const double share = (i + 0.5) / kDots;
        dots.push_back(stacks.place(share, find_quantile(quantiles_s, share)));
    }
    return dots;
}

std::string write_dots_csv(const Findings& findings, const std::vector<int>& shown,
                           const TimeAxis& axis, const DotLayout& layout,
                           int& tallest_stack) {
    CsvText csv({"setup_number", "finish_s", "drawn_at_s", "height", "kind", "setup"});
    const double goal_s = findings.goals_s.empty()
                              ? std::numeric_limits<double>::infinity()
                              : findings.goals_s.front();
    for (const int setup : shown) {
        for (const Dot& dot :
             lay_dots(at(findings, setup).quantiles_s, axis, layout, goal_s)) {
            tallest_stack = std::max(tallest_stack, dot.height);
            csv.add_row({std::to_string(setup + 1), csv_time(dot.finish_s),
                         csv_number(dot.drawn_s), std::to_string(dot.height),
                         std::to_string(static_cast<int>(dot.kind)),
                         at(findings, setup).name});
        }
    }
    return csv.text();
}

Curves draw_curves(const Findings& findings, const std::vector<int>& shown,
                   const TimeAxis& axis) {
    Curves curves;
    CsvText csv({"setup_number", "finish_s", "days_in_100_per_min", "setup"});
    for (const int setup : shown) {
        const SetupFindings& found = at(findings, setup);
        const Density density(found.quantiles_s);
        curves.peak.push_back(std::isfinite(found.typical_s) ? density.at(found.typical_s)
                                                             : 0.0);
        for (int i = 0; i < kCurvePoints; ++i) {
            const double time_s =
                axis.low_s + (axis.high_s - axis.low_s) * i / (kCurvePoints - 1);
            const double height = density.at(time_s);
            curves.most = std::max(curves.most, height);
            csv.add_row({std::to_string(setup + 1), csv_number(time_s),
                         csv_number(height), found.name});
        }
    }
    curves.csv = csv.text();
    return curves;
}

std::string write_slower_csv(const Findings& findings, const std::vector<int>& shown) {
    CsvText csv({"setup_number", "finish_s", "slower_in_100_days", "mark", "setup"});
    for (std::size_t row = 0; row < shown.size(); ++row) {
        const SetupFindings& found = at(findings, shown[row]);
        const auto count = static_cast<double>(found.quantiles_s.size());
        const double lower = std::pow(kNextRow, static_cast<double>(row));
        double last_s = 0.0, slower = 100.0;
        for (std::size_t i = 0; i < found.quantiles_s.size(); ++i) {
            const double before = slower;
            slower = 100.0 * (1.0 - (static_cast<double>(i) + 0.5) / count);
            if (slower > kSlowFrom + 2.0) continue;
            if (std::isinf(found.quantiles_s[i])) break;
            last_s = found.quantiles_s[i];
            const bool is_marked =
                std::any_of(kMarks.begin(), kMarks.end(), [&](double mark) {
                    return before > mark * lower && slower <= mark * lower;
                });
            csv.add_row({std::to_string(shown[row] + 1), csv_number(last_s),
                         csv_number(slower), is_marked ? std::to_string(row + 1) : "0",
                         found.name});
        }
        // From here on only days without a finish are slower, however late.
        if (last_s > 0.0 && found.no_finish.value > 0.0) {
            csv.add_row({std::to_string(shown[row] + 1), csv_number(10.0 * last_s),
                         csv_number(std::min(slower, 100.0 * found.no_finish.value)), "0",
                         found.name});
        }
    }
    return csv.text();
}

std::string write_intervals_csv(const Findings& findings) {
    CsvText csv({"setup_number", "net_s", "could_be_low_s", "could_be_high_s", "setup"});
    for (const PairFindings& pair : findings.pairs) {
        csv.add_row({std::to_string(pair.setup + 1), csv_number(pair.mean_s.value),
                     csv_number(pair.could_be_s.low), csv_number(pair.could_be_s.high),
                     at(findings, pair.setup).name});
    }
    return csv.text();
}

}  // namespace flattail::publish

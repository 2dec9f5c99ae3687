#include "course/height_fit.h"

#include <algorithm>
#include <cmath>

#include "base/expects.h"

namespace flattail::course {
namespace {

/// The integrals of height x (falling, rising) hat over one segment.
struct Moments {
    double falling = 0.0;
    double rising = 0.0;
};

class Profile {
  public:
    explicit Profile(const Course& course) : nodes_(course.nodes) {}

    double height_at(double place_m) {
        move_to(place_m);
        const Node& from = nodes_[at_];
        const Node& to = nodes_[at_ + 1];
        const double part =
            (place_m - from.distance_m) / (to.distance_m - from.distance_m);
        return from.elevation_m + part * (to.elevation_m - from.elevation_m);
    }

    /// Simpson's rule over each straight part is exact for height x hat.
    Moments integrate(double from_m, double to_m) {
        Moments sum;
        double left_m = from_m;
        double left_height_m = height_at(from_m);
        while (left_m < to_m) {
            const double node_m = nodes_[at_ + 1].distance_m;
            const double right_m = node_m > left_m ? std::min(node_m, to_m) : to_m;
            const double right_height_m = height_at(right_m);
            const double p0 = (left_m - from_m) / (to_m - from_m);
            const double p1 = (right_m - from_m) / (to_m - from_m);
            const double sixth_m = (right_m - left_m) / 6.0;
            const double middle = (left_height_m + right_height_m) * (p0 + p1);
            const double rising =
                sixth_m * (left_height_m * p0 + middle + right_height_m * p1);
            sum.rising += rising;
            sum.falling += 3.0 * sixth_m * (left_height_m + right_height_m) - rising;
            left_m = right_m;
            left_height_m = right_height_m;
        }
        return sum;
    }

  private:
    void move_to(double place_m) {
        while (at_ + 2 < nodes_.size() && nodes_[at_ + 1].distance_m <= place_m) {
            ++at_;
        }
    }

    const std::vector<Node>& nodes_;
    std::size_t at_ = 0;
};

/// Solves the symmetric tridiagonal system in place (Thomas); diagonally dominant here.
void solve_tridiagonal(std::vector<double>& diagonal, const std::vector<double>& beside,
                       std::vector<double>& right) {
    for (std::size_t i = 1; i < diagonal.size(); ++i) {
        const double factor = beside[i - 1] / diagonal[i - 1];
        diagonal[i] -= factor * beside[i - 1];
        right[i] -= factor * right[i - 1];
    }
    right.back() /= diagonal.back();
    for (std::size_t i = diagonal.size() - 1; i-- > 0;) {
        right[i] = (right[i] - beside[i] * right[i + 1]) / diagonal[i];
    }
}

}  // namespace

std::vector<double> fit_heights(const Course& course,
                                const std::vector<double>& borders_m) {
    FLATTAIL_EXPECTS(borders_m.size() >= 2);
    const std::size_t count = borders_m.size();
    std::vector<double> diagonal(count, 0.0);
    std::vector<double> beside(count - 1, 0.0);
    std::vector<double> right(count, 0.0);
    Profile profile(course);
    for (std::size_t k = 0; k + 1 < count; ++k) {
        const double length_m = borders_m[k + 1] - borders_m[k];
        const Moments moments = profile.integrate(borders_m[k], borders_m[k + 1]);
        diagonal[k] += length_m / 3.0;
        diagonal[k + 1] += length_m / 3.0;
        beside[k] = length_m / 6.0;
        right[k] += moments.falling;
        right[k + 1] += moments.rising;
    }
    const double first_m = course.nodes.front().elevation_m;
    const double last_m = course.nodes.back().elevation_m;
    right[1] -= beside.front() * first_m;
    right[count - 2] -= beside.back() * last_m;
    beside.front() = beside.back() = 0.0;
    diagonal.front() = diagonal.back() = 1.0;
    right.front() = first_m;
    right.back() = last_m;
    solve_tridiagonal(diagonal, beside, right);
    return right;
}

}  // namespace flattail::course

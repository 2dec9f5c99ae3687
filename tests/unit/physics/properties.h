// Cases for laws that must hold everywhere: fixed seed, uniform inside stated ranges.
#pragma once

#include <random>

namespace physics_test {

class Cases {
  public:
    explicit Cases(unsigned seed) : engine_(seed) {}

    double between(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(engine_);
    }

  private:
    std::mt19937_64 engine_;
};

inline constexpr int kCaseCount = 500;

// Pa in one psi (NIST SP 811) and K at 0 C.
inline constexpr double kPsi = 6894.757293168;
inline constexpr double kZero = 273.15;

}  // namespace physics_test

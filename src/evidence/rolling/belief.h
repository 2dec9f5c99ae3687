// What a scenario takes from rolling tests: changes of Crr that are known together.
#pragma once

#include <string>
#include <vector>

#include "flattail/evidence.h"

namespace flattail::evidence {

/// One product, and in what it was tested.
struct TestedProduct {
    std::string name;
    double change = 0.0;  // of Crr, against the product compared with
    double sd = 0.0;
    int tests = 0;
    int laboratories = 0;
    std::vector<double> widths_m;
    std::vector<std::string> tyres;
    std::vector<std::string> surfaces;
};

/// Products with their joint normal distribution; the first one is the product compared
/// with, whose change is 0 for certain.
/// Shapes:  correlation[p * products + q]; the first row is that of the identity
struct RollingBelief {
    std::string from;  // the file of tests
    double specimen_sd = 0.0;
    std::vector<TestedProduct> products;
    std::vector<double> correlation;

    double find_correlation(std::size_t p, std::size_t q) const {
        return correlation[p * products.size() + q];
    }
};

/// The normal distribution with the mean and covariance of the pool; products that no
/// test in use knows are left out.
/// Source:  METHOD 4.14
RollingBelief make_belief(const RollingEvidence& evidence);

/// Sd of the change that one pair of specimens brings, and how it goes with another's.
double find_pair_sd(const RollingBelief& belief, std::size_t product);
double find_pair_correlation(const RollingBelief& belief, std::size_t p, std::size_t q);

}  // namespace flattail::evidence

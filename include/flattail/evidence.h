// What rolling tests say together: differences between products, and how sure they are.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/problem.h"
#include "flattail/publish.h"

namespace flattail {

/// What is done with tests that a maker ran on what it sells.
enum class MakerRows {
    kLeftOut,
    kDiscounted,  // taken as probably flattering, and as less exact (METHOD 4.11)
    kAsStated     // taken at face value
};

/// How tests are pooled. The numbers are coefficients of rolling resistance.
struct RollingOptions {
    /// The product that all others are compared with; empty: the one most laboratories
    /// tested.
    std::string against;
    MakerRows makers = MakerRows::kDiscounted;
    /// How far laboratories differ about a difference, before seeing the tests: scale of
    /// a half-normal prior. Assumption: two laboratories in three within 4 W a pair at 45
    /// km/h and 85 kg. Larger: few laboratories say less.
    double between_laboratories = 0.0003;
    /// How far two specimens of one product differ, as an sd. Assumption, about 2 % of a
    /// race tyre. Larger: no test tells much about the tyre in your hands.
    double specimen_sd = 0.0001;
};

/// One row of the file, and what became of it.
struct RollingTest {
    Place place;
    std::string source;  // the laboratory
    std::string product;
    bool by_maker = false;
    std::string tyre;  // what it was tested in or with; may be empty
    std::string method;
    std::string surface;
    double width_m = 0.0;  // 0: not stated
    bool used = false;
    std::string note;         // why it was left out, or what stands out about it
    bool stands_out = false;  // far from what all other tests let expect
    double crr = 0.0;         // on a smooth flat road at reference pressure and 25 C
    double standard_error = 0.0;
    double score = 0.0;  // distance from the other tests over its standard error
};

/// Differences to the product compared with, for one way to take makers' rows.
struct RollingPool {
    MakerRows makers = MakerRows::kDiscounted;
    std::vector<bool> known;  // whether any test is left this way; else the rest is 0
    std::vector<double> change;
    std::vector<double> sd;
    std::vector<double> covariance;     // row by row
    std::vector<Interval> could_be;     // 9 in 10
    std::vector<Interval> next_found;   // 9 in 10, what one more laboratory would find
    double between_laboratories = 0.0;  // posterior mean of their sd
};

/// A classical estimate from the laboratories that tested a product beside the one
/// compared with.
struct ClassicalPool {
    int laboratories = 0;
    double mean = 0.0;
    double standard_error = 0.0;
    double tau2 = 0.0;  // variance between laboratories
    double q = 0.0;
    double i2_percent = 0.0;
    Interval confidence;     // 95 %, normal
    Interval hartung_knapp;  // 95 %
    Interval prediction;     // 95 %, t with k - 2; not finite for k < 3
    double reml_mean = 0.0;
    double reml_tau2 = 0.0;
};

/// The change that one laboratory found by itself.
struct LaboratoryFinding {
    std::string laboratory;
    bool by_maker = false;
    double change = 0.0;
    double standard_error = 0.0;
    double without_it = 0.0;  // pooled change when this laboratory is left out
};

struct ProductEvidence {
    std::string name;
    int tests = 0;
    int laboratories = 0;
    ClassicalPool classical;
    std::vector<LaboratoryFinding> found;
    std::vector<double> widths_m;       // in which it was tested, rising
    std::vector<std::string> tyres;     // in or with which
    std::vector<std::string> surfaces;  // on which
};

/// Rolling tests pooled.
/// Shapes:  products[p] without the one compared with; change[p] and the like alike;
///          covariance[p * products + q]
struct RollingEvidence {
    std::string file;
    std::string against;
    RollingOptions options;  // makers as asked for, or as fallen back to
    std::vector<RollingTest> tests;
    std::vector<std::string> laboratories;
    std::vector<ProductEvidence> products;
    RollingPool pool;               // the one chosen
    std::vector<RollingPool> ways;  // left out, discounted, as stated
    std::vector<Problem> warnings;
};

/// Reads a CSV of rolling tests and pools them.
/// Errors: InvalidInput with every problem of the file, or when nothing can be compared
/// Source:  METHOD 4.8 to 4.14
RollingEvidence pool_rolling_tests(const std::string& path,
                                   const RollingOptions& options = {});

/// The pool on one terminal page, in watts of a pair of tyres at 45 km/h and 85 kg.
std::string write_evidence_page(const RollingEvidence& evidence,
                                const PageOptions& options = {});

/// What a scenario includes to use the pool: TOML with each product's change of Crr, its
/// sd and how it goes together with the others. Numbers read back to the same bits.
std::string write_evidence_library(const RollingEvidence& evidence);

/// Writes tests.csv (every row and what became of it), forest.csv (what each laboratory
/// found, and every way to pool it) and rolling.toml (write_evidence_library).
/// Errors: as write_tables; OutputFailed when it would write over the tests themselves
void write_evidence_tables(const RollingEvidence& evidence, const std::string& directory);

/// The words of a way to take makers' rows: "left out", "discounted", "as stated".
std::string name_maker_rows(MakerRows makers);

}  // namespace flattail

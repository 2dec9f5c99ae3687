#include "evidence/rolling/pool_tests.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "evidence/rolling/classical.h"
#include "evidence/rolling/convert.h"
#include "evidence/rolling/outliers.h"
#include "evidence/rolling/table.h"

namespace flattail {

namespace {

using namespace evidence;
using Of = RollingPosterior::Of;

constexpr double kNineInTen = 0.9;
// Scoring every test takes one posterior each, half a second in all for this many; files
// beyond are not scored, and say so.
constexpr std::size_t kMostScored = 200;
// A scale of 1e-7 is below any balance, and .01 above any tyre.
constexpr double kLeastScale = 1e-7;
constexpr double kMostScale = 0.01;

const char* name_method(TestMethod method) {
    constexpr const char* kNames[] = {"drum", "road", "track"};
    return kNames[static_cast<int>(method)];
}

std::string name_surface(const TestRow& row) {
    constexpr const char* kNames[] = {"smooth", "ordinary", "coarse", "cobbles"};
    if (row.surface) return kNames[static_cast<int>(*row.surface)];
    return row.method == TestMethod::kDrum   ? "steel"
           : row.method == TestMethod::kRoad ? "ordinary"
                                             : "smooth";
}

RollingTest take_row(const TestRow& row) {
    RollingTest test;
    test.place = row.place;
    test.source = row.source;
    test.product = row.product;
    test.by_maker = row.by_maker;
    test.tyre = row.tyre;
    test.method = name_method(row.method);
    test.surface = name_surface(row);
    test.width_m = row.width_m.value_or(0.0);
    const ConvertedTest converted = convert_test(row);
    test.used = converted.refusal.empty();
    test.note = converted.refusal;
    if (row.is_dropped) {
        test.used = false;
        test.note = "the file says not to use it";
    }
    if (!test.used) return test;
    test.crr = converted.crr;
    test.standard_error = converted.standard_error;
    return test;
}

RollingPrior make_prior(const RollingOptions& options) {
    return {kDifferencePriorSd, options.between_laboratories, options.specimen_sd};
}

RollingPool pool_cells(const std::vector<Cell>& cells, std::size_t products,
                       MakerRows makers, const RollingPrior& prior) {
    RollingPool pool;
    pool.makers = makers;
    const std::vector<bool> joined = find_joined(cells, products);
    pool.known.assign(joined.begin() + 1, joined.end());
    const RollingPosterior posterior(cells, static_cast<int>(products), prior);
    const Eigen::VectorXd mean = posterior.mean();
    const Eigen::MatrixXd covariance = posterior.covariance();
    pool.between_laboratories = posterior.mean_tau();
    for (Eigen::Index p = 0; p < mean.size(); ++p) {
        const int product = static_cast<int>(p) + 1;
        pool.change.push_back(mean(p));
        pool.sd.push_back(std::sqrt(covariance(p, p)));
        pool.could_be.push_back(
            posterior.find_interval(product, kNineInTen, Of::kDifference));
        pool.next_found.push_back(
            posterior.find_interval(product, kNineInTen, Of::kNextLaboratory));
        for (Eigen::Index q = 0; q < mean.size(); ++q) {
            pool.covariance.push_back(covariance(p, q));
        }
    }
    return pool;
}

// What each laboratory found by itself of one product, from the blocks that hold it and
// the product compared with.
std::vector<LaboratoryFinding> find_alone(const std::vector<Cell>& cells, int product,
                                          const TestTable& table) {
    std::vector<LaboratoryFinding> found;
    for (std::size_t l = 0; l < table.laboratories.size(); ++l) {
        double weight = 0.0, weighted = 0.0;
        for (const Cell& cell : cells) {
            if (cell.laboratory != static_cast<int>(l) || cell.product != product) {
                continue;
            }
            for (const Cell& beside : cells) {
                if (beside.block != cell.block || beside.product != 0) continue;
                const double w = 1.0 / (cell.variance + beside.variance);
                weight += w;
                weighted += w * (cell.value - beside.value);
            }
        }
        if (weight == 0.0) continue;
        LaboratoryFinding finding;
        finding.laboratory = table.laboratories[l];
        finding.change = weighted / weight;
        finding.standard_error = 1.0 / std::sqrt(weight);
        found.push_back(finding);
    }
    return found;
}

ClassicalPool pool_found(const std::vector<LaboratoryFinding>& found) {
    std::vector<double> value, variance;
    for (const LaboratoryFinding& finding : found) {
        value.push_back(finding.change);
        variance.push_back(finding.standard_error * finding.standard_error);
    }
    return pool_classically({value, variance});
}

template <class T>
void insert_sorted(std::vector<T>& list, const T& value) {
    const auto at = std::lower_bound(list.begin(), list.end(), value);
    if (at == list.end() || *at != value) list.insert(at, value);
}

// One pooling, step by step.
class Pooling {
  public:
    Pooling(const RollingOptions& options, const Place& place,
            base::ProblemList& problems)
        : place_(place), problems_(problems) {
        result_.options = options;
        result_.file = place.file;
    }

    RollingEvidence pool(const std::vector<TestRow>& rows) {
        if (!check_options()) return result_;
        for (const TestRow& row : rows) result_.tests.push_back(take_row(row));
        note_assumed(rows);
        if (!choose_product()) return result_;
        table_ = sort_tests(result_.tests, result_.against);
        result_.laboratories = table_.laboratories;
        if (!check_comparable() || !settle_makers()) return result_;
        const RollingPrior prior = make_prior(result_.options);
        pool_ways(prior);
        describe_products(prior);
        if (result_.tests.size() <= kMostScored) {
            find_outliers(result_.tests, table_, result_.options.makers, prior);
        } else {
            warn(fmt::format("more than {} tests: none was held against the others",
                             kMostScored));
        }
        warn_of_doubts();
        return result_;
    }

  private:
    bool check_scale(const char* name, double value) {
        if (value >= kLeastScale && value <= kMostScale) return true;
        problems_.add_error(place_,
                            fmt::format("{} is {:g}, outside {:g} to {:g}", name, value,
                                        kLeastScale, kMostScale),
                            "write a coefficient like 0.0003");
        return false;
    }

    bool check_options() {
        const bool between = check_scale("between", result_.options.between_laboratories);
        const bool specimen = check_scale("specimen", result_.options.specimen_sd);
        return between && specimen;
    }

    void warn(std::string what, std::string hint = "") {
        result_.warnings.push_back(
            {place_, std::move(what), std::move(hint), Severity::kWarning});
    }

    void note_assumed(const std::vector<TestRow>& rows) {
        const auto count = [&](auto lacks) {
            return std::count_if(rows.begin(), rows.end(), lacks);
        };
        const auto cold = count([](const TestRow& row) { return !row.temperature_k; });
        if (cold > 0) {
            warn(fmt::format("{} of {} tests state no temperature: 20 C assumed", cold,
                             rows.size()));
        }
        const auto vague = count([](const TestRow& row) { return !row.spread; });
        if (vague > 0) {
            warn(fmt::format("{} of {} tests state no spread: 3 % of a run assumed",
                             vague, rows.size()));
        }
    }

    bool choose_product() {
        std::vector<std::string> names;
        for (const RollingTest& test : result_.tests) {
            if (test.used) insert_sorted(names, test.product);
        }
        if (names.empty()) {
            fail(result_.tests.empty() ? "there is no test"
                                       : "no test could be converted: row 1 has " +
                                             result_.tests.front().note);
            return false;
        }
        result_.against = result_.options.against;
        if (result_.against.empty()) result_.against = choose_against(result_.tests);
        if (std::binary_search(names.begin(), names.end(), result_.against)) return true;
        const std::string nearest = base::find_nearest_name(result_.against, names);
        problems_.add_error(
            place_, fmt::format("no usable test is of \"{}\"", result_.against),
            nearest.empty()
                ? fmt::format("compare with one of {}", fmt::join(names, ", "))
                : fmt::format("did you mean \"{}\"?", nearest));
        return false;
    }

    void fail(const std::string& what) {
        problems_.add_error(place_, what,
                            "add tests of at least two products by the same laboratory, "
                            "with speed, load and pressure");
    }

    bool check_comparable() {
        if (table_.products.size() >= 2) return true;
        const auto usable =
            std::count_if(result_.tests.begin(), result_.tests.end(),
                          [](const RollingTest& test) { return test.crr > 0.0; });
        fail(usable == 1 ? "one usable test: nothing can be compared"
                         : fmt::format("{} usable tests, but none beside another product",
                                       usable));
        return false;
    }

    // Leaving out makers may leave nothing; then they are discounted instead.
    bool settle_makers() {
        if (result_.options.makers != MakerRows::kLeftOut) return true;
        const auto joined =
            find_joined(make_cells(result_.tests, table_, MakerRows::kLeftOut),
                        table_.products.size());
        if (std::count(joined.begin() + 1, joined.end(), true) > 0) return true;
        result_.options.makers = MakerRows::kDiscounted;
        warn("all that can be compared was tested by makers: discounted, not left out",
             "add independent tests");
        return true;
    }

    void pool_ways(const RollingPrior& prior) {
        for (const MakerRows makers :
             {MakerRows::kLeftOut, MakerRows::kDiscounted, MakerRows::kAsStated}) {
            result_.ways.push_back(pool_cells(make_cells(result_.tests, table_, makers),
                                              table_.products.size(), makers, prior));
        }
        result_.pool = result_.ways[static_cast<std::size_t>(result_.options.makers)];
    }

    bool is_used(const RollingTest& test) const {
        const bool left_out =
            test.by_maker && result_.options.makers == MakerRows::kLeftOut;
        return test.used && !left_out;
    }

    void describe_products(const RollingPrior& prior) {
        const std::vector<Cell> cells =
            make_cells(result_.tests, table_, result_.options.makers);
        for (std::size_t p = 1; p < table_.products.size(); ++p) {
            ProductEvidence product;
            product.name = table_.products[p];
            std::vector<std::string> sources;
            for (const RollingTest& test : result_.tests) {
                if (!is_used(test) || test.product != product.name) continue;
                ++product.tests;
                insert_sorted(sources, test.source);
                if (test.width_m > 0.0) insert_sorted(product.widths_m, test.width_m);
                if (!test.tyre.empty()) insert_sorted(product.tyres, test.tyre);
                insert_sorted(product.surfaces, test.surface);
            }
            product.laboratories = static_cast<int>(sources.size());
            product.found = find_alone(cells, static_cast<int>(p), table_);
            product.classical = pool_found(product.found);
            result_.products.push_back(std::move(product));
        }
        leave_each_out(cells, prior);
    }

    void leave_each_out(const std::vector<Cell>& cells, const RollingPrior& prior) {
        for (std::size_t l = 0; l < table_.laboratories.size(); ++l) {
            std::vector<Cell> others;
            std::copy_if(cells.begin(), cells.end(), std::back_inserter(others),
                         [&](const Cell& c) { return c.laboratory != int(l); });
            const RollingPosterior posterior(
                others, static_cast<int>(table_.products.size()), prior);
            const Eigen::VectorXd mean = posterior.mean();
            for (std::size_t p = 0; p < result_.products.size(); ++p) {
                for (LaboratoryFinding& finding : result_.products[p].found) {
                    if (finding.laboratory != table_.laboratories[l]) continue;
                    finding.without_it = mean(static_cast<Eigen::Index>(p));
                    finding.by_maker = is_maker(finding.laboratory);
                }
            }
        }
    }

    bool is_maker(const std::string& laboratory) const {
        return std::any_of(result_.tests.begin(), result_.tests.end(),
                           [&](const RollingTest& test) {
                               return test.by_maker && test.source == laboratory;
                           });
    }

    void warn_of_doubts() {
        std::vector<std::string> used;
        for (const RollingTest& test : result_.tests) {
            if (is_used(test)) insert_sorted(used, test.source);
        }
        if (used.size() == 1) {
            warn("one laboratory only: how far laboratories differ is an assumption",
                 "add tests of another laboratory");
        }
        if (std::all_of(used.begin(), used.end(),
                        [&](const std::string& name) { return is_maker(name); })) {
            warn("makers' tests only: no independent laboratory is among them",
                 "add independent tests");
        }
    }

    Place place_;
    base::ProblemList& problems_;
    RollingEvidence result_;
    TestTable table_;
};

}  // namespace

RollingEvidence evidence::pool_rows(const std::vector<TestRow>& rows,
                                    const RollingOptions& options, const Place& place,
                                    base::ProblemList& problems) {
    return Pooling(options, place, problems).pool(rows);
}

RollingEvidence evidence::pool_file(const std::string& path,
                                    const RollingOptions& options,
                                    base::ProblemList& problems, const Place& asked_at) {
    const int before = problems.error_count();
    const std::vector<TestRow> rows = read_rolling_tests(path, problems, asked_at);
    if (problems.error_count() > before) return {};
    return pool_rows(rows, options, {path, 0, 0}, problems);
}

RollingEvidence pool_rolling_tests(const std::string& path,
                                   const RollingOptions& options) {
    base::ProblemList problems;
    RollingEvidence evidence = evidence::pool_file(path, options, problems);
    problems.throw_if_errors();
    return evidence;
}

std::string name_maker_rows(MakerRows makers) {
    constexpr const char* kNames[] = {"left out", "discounted", "as stated"};
    return kNames[static_cast<int>(makers)];
}

}  // namespace flattail

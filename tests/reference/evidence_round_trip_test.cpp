// From a file of tests to the race days: how far two tested tubes differ, and how sure
// that is, must be the same in the pool, the library, the scenario and the draws.
//
// Null: draws have the sd that the pool says. Bound: 4.9 standard errors, sd / sqrt(2 n),
// a false alarm in a million. Twin: the sd that independent tubes would have must fail.
#include <cmath>
#include <fstream>

#include "flattail/evidence.h"
#include "flattail/scenario.h"
#include "scenario/model.h"
#include "study/prepared.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

namespace {

using namespace flattail;

const std::string kFolder = std::string(FLATTAIL_SOURCE_DIR) + "/scenarios/lakeside/";
const std::string kPlastic = "inner.TPU.rolling", kLatex = "inner.latex.rolling";

InputId find_input(const scenario::Model& model, const std::string& name) {
    for (std::size_t i = 0; i < model.inputs.size(); ++i) {
        if (model.inputs[i].name == name) return {static_cast<int>(i)};
    }
    FAIL("no input " + name);
    return {};
}

std::size_t find_product(const RollingEvidence& evidence, const std::string& name) {
    for (std::size_t p = 0; p < evidence.products.size(); ++p) {
        if (evidence.products[p].name == name) return p;
    }
    FAIL("no product " + name);
    return 0;
}

RollingEvidence pool() {
    RollingOptions options;
    options.against = "Plain butyl";
    return pool_rolling_tests(kFolder + "tests.csv", options);
}

// Sd of the difference of two products, each as a pair of specimens of its own.
double find_sd(const RollingEvidence& evidence, bool joint) {
    const std::size_t a = find_product(evidence, "Sedge TPU");
    const std::size_t b = find_product(evidence, "Heron latex");
    const std::size_t n = evidence.products.size();
    const auto& c = evidence.pool.covariance;
    const double specimen = evidence.options.specimen_sd;
    const double together = joint ? c[a * n + b] : 0.0;
    return std::sqrt(c[a * n + a] + c[b * n + b] - 2 * together + specimen * specimen);
}

double find_sd(const scenario::Model& model) {
    const InputId a = find_input(model, kPlastic), b = find_input(model, kLatex);
    const double sa = model.input(a).knowledge.b, sb = model.input(b).knowledge.b;
    REQUIRE(model.correlations.size() == 1);
    const scenario::Correlation& together = model.correlations.front();
    REQUIRE(together.inputs.size() == 2);
    return std::sqrt(sa * sa + sb * sb - 2 * sa * sb * together.matrix[1]);
}

// The same race, its tubes from a library instead of the tests.
Scenario read_with_library(const RollingEvidence& evidence) {
    const test::ScratchDirectory scratch;
    write_evidence_tables(evidence, scratch.path());
    const std::string path = scratch.path() + "/race.toml";
    std::ofstream(path) << "include = [\"" << kFolder
                        << "scenario.toml\", \"rolling.toml\"]\n"
                        << "[[inner]]\nname = \"latex\"\ntested_as = \"Heron latex\"\n"
                        << "[[inner]]\nname = \"TPU\"\ntested_as = \"Sedge TPU\"\n";
    return read_scenario({path, {}});
}

}  // namespace

TEST_CASE("the doubt of a difference survives library and scenario") {
    const RollingEvidence evidence = pool();
    const double wanted = find_sd(evidence, true);
    const Scenario direct = read_scenario({kFolder + "tested.toml", {}});
    const Scenario library = read_with_library(evidence);
    CHECK(find_sd(direct.model()) == Approx(wanted).epsilon(1e-12));
    CHECK(find_sd(library.model()) == Approx(wanted).epsilon(1e-12));
    for (const std::string& name : {kPlastic, kLatex}) {
        const Input& a = direct.model().input(find_input(direct.model(), name));
        const Input& b = library.model().input(find_input(library.model(), name));
        CHECK(a.knowledge.a == b.knowledge.a);
        CHECK(a.knowledge.b == b.knowledge.b);
        CHECK(a.origin == Origin::kFitted);
    }
}

TEST_CASE("race days draw two tested tubes as far apart as the tests say", "[slow]") {
    const RollingEvidence evidence = pool();
    const Scenario scenario = read_scenario({kFolder + "tested.toml", {}});
    const scenario::Model& model = scenario.model();
    const InputId a = find_input(model, kPlastic), b = find_input(model, kLatex);
    StudyOptions options;
    options.draw = DrawKind::kPlain;
    options.seed = 20261125;
    const study::Prepared prepared = study::prepare(model, options);
    sampling::DayBlock block = prepared.days->make_block();
    constexpr int kBlocks = 1500;
    const double n = kBlocks * sampling::kLanes;
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < kBlocks; ++i) {
        prepared.days->fill(static_cast<std::uint64_t>(i) * sampling::kLanes, block);
        for (int lane = 0; lane < sampling::kLanes; ++lane) {
            const double apart = block.of(a)[lane] - block.of(b)[lane];
            sum += apart;
            squares += apart * apart;
        }
    }
    const double mean = sum / n, sd = std::sqrt(squares / n - mean * mean);
    const double wanted = find_sd(evidence, true);
    const double bound = 4.9 * wanted / std::sqrt(2.0 * n);
    CHECK(std::abs(sd - wanted) < bound);
    CHECK(std::abs(sd - find_sd(evidence, false)) > bound);
    const double change = evidence.pool.change[find_product(evidence, "Sedge TPU")] -
                          evidence.pool.change[find_product(evidence, "Heron latex")];
    CHECK(std::abs(mean - change) < 4.9 * wanted / std::sqrt(n));
}

TEST_CASE("a scenario warns of a test that stands out") {
    const test::ScratchDirectory scratch;
    std::string text = test::read_file(kFolder + "tests.csv");
    const auto at = text.find(",no,typed in");
    REQUIRE(at != std::string::npos);
    text.erase(at + 1, 2);
    std::ofstream(scratch.path() + "/slip.csv") << text;
    const std::string path = scratch.path() + "/race.toml";
    std::ofstream(path) << "include = [\"" << kFolder << "scenario.toml\"]\n"
                        << "evidence = { rolling = \"slip.csv\" }\n";
    bool is_warned = false;
    const Scenario scenario = read_scenario({path, {}});
    for (const Problem& problem : scenario.warnings()) {
        is_warned |= problem.place.line == 41 &&
                     problem.what.find("Heron latex stands out") != std::string::npos;
    }
    CHECK(is_warned);
}

TEST_CASE("tables do not write over the tests they come from") {
    const test::ScratchDirectory scratch;
    const std::string tests = scratch.path() + "/tests.csv";
    std::filesystem::copy_file(kFolder + "tests.csv", tests);
    const RollingEvidence evidence = pool_rolling_tests(tests, {});
    const std::string before = test::read_file(tests);
    CHECK_THROWS_AS(write_evidence_tables(evidence, scratch.path()), OutputFailed);
    CHECK(test::read_file(tests) == before);
}

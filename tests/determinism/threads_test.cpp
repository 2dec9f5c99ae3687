// The same numbers, bit for bit, for any number of threads, instruction set and executor.
#include <cstring>
#include <thread>

#include "flattail/study.h"
#include "support/catch.h"

namespace {

using namespace flattail;

Scenario read(const std::vector<std::string>& settings = {}) {
    return read_scenario(
        {std::string(FLATTAIL_SOURCE_DIR) + "/scenarios/lakeside/scenario.toml",
         settings});
}

Findings study(const StudyOptions& options) { return run_study(read(), options); }

StudyOptions small() {
    StudyOptions options;
    options.races = 20000;
    options.seed = 7;
    return options;
}

bool are_same(double a, double b) { return std::memcmp(&a, &b, sizeof a) == 0; }

void require_same(const Findings& a, const Findings& b) {
    REQUIRE(a.setups.size() == b.setups.size());
    for (std::size_t s = 0; s < a.setups.size(); ++s) {
        REQUIRE(
            are_same(a.setups[s].mean_judged_s.value, b.setups[s].mean_judged_s.value));
        REQUIRE(are_same(a.setups[s].no_finish.value, b.setups[s].no_finish.value));
        for (std::size_t q = 0; q < a.setups[s].quantiles_s.size(); ++q) {
            REQUIRE(are_same(a.setups[s].quantiles_s[q], b.setups[s].quantiles_s[q]));
        }
    }
    for (std::size_t p = 0; p < a.pairs.size(); ++p) {
        REQUIRE(are_same(a.pairs[p].could_be_s.low, b.pairs[p].could_be_s.low));
        REQUIRE(are_same(a.pairs[p].mean_s.value, b.pairs[p].mean_s.value));
    }
}

}  // namespace

TEST_CASE("1, 2 and 7 threads find the same to the bit") {
    StudyOptions options = small();
    options.threads = 1;
    const Findings one = study(options);
    for (const int threads : {2, 7}) {
        options.threads = threads;
        require_same(one, study(options));
    }
}

TEST_CASE("another seed finds something else") {
    StudyOptions options = small();
    const Findings seven = study(options);
    options.seed = 8;
    const Findings eight = study(options);
    CHECK_FALSE(are_same(seven.setups[0].mean_judged_s.value,
                         eight.setups[0].mean_judged_s.value));
}

TEST_CASE("every instruction set of this machine finds the same to the bit") {
    StudyOptions options = small();
    options.instructions = InstructionChoice::kBaseline;
    const Findings baseline = study(options);
    for (const auto choice : {InstructionChoice::kV3, InstructionChoice::kV4}) {
        options.instructions = choice;
        try {
            require_same(baseline, study(options));
        } catch (const InvalidInput&) {
            WARN("this machine lacks one of the instruction sets");
        }
    }
}

TEST_CASE("adding a setup moves no number of the others on plain days") {
    StudyOptions options = small();
    options.draw = DrawKind::kPlain;
    const Findings all = study(options);
    const Findings changed =
        run_study(read({"setup.4.pressure.front=\"55 psi\""}), options);
    for (std::size_t s = 0; s + 1 < all.setups.size(); ++s) {
        REQUIRE(
            are_same(all.setups[s].quantiles_s[990], changed.setups[s].quantiles_s[990]));
        REQUIRE(are_same(all.setups[s].flat.value, changed.setups[s].flat.value));
    }
}

// Which of several good setups is chosen.
#include "flattail/study.h"
#include "support/catch.h"

using namespace flattail;

namespace {

const std::string kScenario =
    std::string(FLATTAIL_SOURCE_DIR) + "/tests/support/scenarios/doubtful_third.toml";

Findings study(const std::vector<std::string>& settings) {
    StudyOptions options;
    options.races = 8192;
    return run_study(read_scenario({kScenario, settings}), options);
}

std::string choose(const Findings& found) {
    return found.setups[static_cast<std::size_t>(found.verdict.choice)].name;
}

}  // namespace

TEST_CASE("a doubtful setup with the same average hides no surer one") {
    const Findings found = study({});
    CHECK(found.setups[2].mean_judged_s.value < found.setups[1].mean_judged_s.value);
    CHECK(choose(found) == "TPU");
    CHECK(found.verdict.certainty == Certainty::kLeaning);
    CHECK(found.verdict.reason.find("as good as Tubeless by what matters, and surer") ==
          0);
    CHECK(choose(study({"owned=[\"Butyl\", \"TPU\"]"})) == "TPU");
}

TEST_CASE("where the seconds between them matter, the faster one is weighed alone") {
    const Findings found = study({"decision.matters=1 s"});
    CHECK(choose(found) == "Tubeless");
    CHECK(found.verdict.certainty == Certainty::kTossUp);
}

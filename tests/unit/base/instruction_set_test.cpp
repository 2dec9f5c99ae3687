#include "base/instruction_set.h"

#include <set>
#include <string>

#include "support/catch.h"

using namespace flattail::base;

TEST_CASE("the baseline may always be called and the detected set closes the list") {
    const auto sets = supported_instruction_sets();
    REQUIRE_FALSE(sets.empty());
    CHECK(sets.front() == InstructionSet::kBaseline);
    CHECK(sets.back() == detect_instruction_set());
}

TEST_CASE("every instruction set has a name of its own") {
    const std::set<std::string> names{name_instruction_set(InstructionSet::kBaseline),
                                      name_instruction_set(InstructionSet::kV3),
                                      name_instruction_set(InstructionSet::kV4)};
    CHECK(names == std::set<std::string>{"baseline", "v3", "v4"});
}

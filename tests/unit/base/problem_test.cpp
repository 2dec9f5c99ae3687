#include "flattail/problem.h"

#include "base/problem_list.h"
#include "support/catch.h"

using flattail::base::find_nearest_name;
using flattail::base::ProblemList;

TEST_CASE("a problem prints its place, what is wrong and what to write") {
    const flattail::Problem problem{
        {"race.toml", 3, 7}, "mass has no unit", "write mass = \"70 kg\""};
    CHECK(format_problem(problem) ==
          "race.toml:3:7: mass has no unit -> write mass = \"70 kg\"");
}

TEST_CASE("unknown places and empty hints are left out") {
    CHECK(flattail::format_problem({{"", 0, 0}, "no setups", ""}) == "no setups");
    CHECK(flattail::format_problem({{"a.csv", 4, 0}, "no rows", ""}) ==
          "a.csv:4: no rows");
}

TEST_CASE("a list throws every error at once and keeps warnings back") {
    ProblemList list;
    list.add_warning({}, "doubtful", "");
    CHECK_NOTHROW(list.throw_if_errors());
    list.add_error({}, "one", "");
    list.add_error({}, "two", "");
    try {
        list.throw_if_errors();
        FAIL("nothing was thrown");
    } catch (const flattail::InvalidInput& error) {
        CHECK(error.problems().size() == 2);
    }
}

TEST_CASE("the nearest known name is found and a far one is not") {
    const std::vector<std::string> known{"pressure", "tyre", "inner", "name"};
    CHECK(find_nearest_name("presure", known) == "pressure");
    CHECK(find_nearest_name("tire", known) == "tyre");
    CHECK(find_nearest_name("innre", known) == "inner");
    CHECK(find_nearest_name("helicopter", known).empty());
}

TEST_CASE("of two names as near, the one with a letter dropped is meant") {
    CHECK(find_nearest_name("--sed", {"--set", "--seed"}) == "--seed");
    CHECK(find_nearest_name("--sed", {"--seed", "--set"}) == "--seed");
    CHECK(find_nearest_name("--sat", {"--set", "--seed"}) == "--set");
}

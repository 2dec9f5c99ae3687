// Uses the public face the way an outside program does, and fails when it answers
// wrongly.
#include <flattail/problem.h>

#include <cstdlib>
#include <iostream>
#include <string>

namespace {

bool tells_a_problem_with_its_place() {
    const flattail::Problem problem{
        {"race.toml", 3, 7}, "mass has no unit", "write mass = \"70 kg\""};
    return flattail::format_problem(problem) ==
           "race.toml:3:7: mass has no unit -> write mass = \"70 kg\"";
}

bool catches_its_errors_by_type() {
    try {
        throw flattail::InvalidInput({{{"a.csv", 4, 0}, "no rows", ""}});
    } catch (const flattail::InvalidInput& error) {
        return error.problems().size() == 1 &&
               std::string(error.what()) == "a.csv:4: no rows";
    }
}

}  // namespace

int main() {
    const bool good = tells_a_problem_with_its_place() && catches_its_errors_by_type();
    std::cout << (good ? "the installed library answers\n" : "wrong answer\n");
    return good ? EXIT_SUCCESS : EXIT_FAILURE;
}

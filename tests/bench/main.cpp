// The benchmark: every figure is a ratio of two things measured by turns in one run, or a
// property of the answer. No figure here passes or fails; the program fails only when two
// ways to compute a ride disagree.
#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string>
#include <vector>

#include "bench/rows.h"
#include "bench/table.h"
#include "bench/timing.h"

namespace {

using namespace flattail::bench;

constexpr const char* kUsage =
    "Usage: flattail_bench [--quick] [--python PROGRAM] [ROWS...]\n"
    "ROWS: kernel baselines shares growth answer; all when none is named\n";

struct Request {
    Effort effort;
    std::vector<std::string> rows;
    bool wants_help = false;

    bool wants(const std::string& name) const {
        if (rows.empty()) return true;
        for (const std::string& row : rows) {
            if (row == name) return true;
        }
        return false;
    }
};

Request read_request(const std::vector<std::string>& words) {
    Request request;
    std::string python = request.effort.python;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (words[i] == "--quick") {
            request.effort = make_quick_effort();
        } else if (words[i] == "--python" && i + 1 < words.size()) {
            python = words[++i];
        } else if (words[i].rfind("-", 0) == 0) {
            request.wants_help = true;
        } else {
            request.rows.push_back(words[i]);
        }
    }
    request.effort.python = python;
    return request;
}

int run(const std::vector<std::string>& words) {
    if (words.size() == 2 && words[0] == kMemoryStudy) {
        run_memory_study(std::stoll(words[1]));
        return EXIT_SUCCESS;
    }
    const Request request = read_request(words);
    if (request.wants_help) {
        fmt::print("{}", kUsage);
        return EXIT_FAILURE;
    }
    bool agrees = true;
    print_heading();
    if (request.wants("kernel")) add_kernel_rows(request.effort);
    if (request.wants("baselines")) agrees = add_baseline_rows(request.effort);
    if (request.wants("shares")) add_share_rows(request.effort);
    if (request.wants("growth")) add_growth_rows(request.effort);
    if (request.wants("answer")) add_answer_rows(request.effort);
    fmt::print("\n{:.0f} s of CPU time, children apart\n", read_cpu_s());
    return agrees ? EXIT_SUCCESS : EXIT_FAILURE;
}

}  // namespace

int main(int count, char** words) {
    try {
        return run({words + 1, words + count});
    } catch (const std::exception& mistake) {
        fmt::print(stderr, "{}\n", mistake.what());
        return EXIT_FAILURE;
    }
}

// Programs run as children.
#include "publish/children/child.h"

#include <filesystem>

#include "flattail/problem.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail;
using namespace flattail::publish;

namespace {

std::string find_message(const Child& child) {
    try {
        run_child(child);
    } catch (const OutputFailed& error) {
        return error.what();
    }
    return "";
}

Child make_child(const ScratchFolder& folder, std::string program,
                 std::vector<std::string> words) {
    Child child;
    child.program = std::move(program);
    child.package = "a-package";
    child.words = std::move(words);
    child.directory = folder.path();
    return child;
}

}  // namespace

TEST_CASE("a missing program is named with the package that brings it") {
    const test::ScratchDirectory scratch;
    const ScratchFolder folder(scratch.path());
    CHECK(find_message(make_child(folder, "no-such-program-here", {})) ==
          "no-such-program-here is not installed -> apt install a-package");
}

TEST_CASE("a failing child is quoted with its last line") {
    const test::ScratchDirectory scratch;
    const ScratchFolder folder(scratch.path());
    const std::string script = "echo first >&2; echo 'the reason' >&2; exit 3";
    CHECK(find_message(make_child(folder, "sh", {"-c", script})) ==
          "sh failed: the reason");
}

TEST_CASE("a child that takes too long is ended") {
    const test::ScratchDirectory scratch;
    const ScratchFolder folder(scratch.path());
    Child child = make_child(folder, "sleep", {"60"});
    child.limit_s = 1;
    CHECK(find_message(child) == "sleep took longer than 1 s and was ended");
}

TEST_CASE("words reach a child as they are, without a shell") {
    const test::ScratchDirectory scratch;
    const ScratchFolder folder(scratch.path());
    run_child(make_child(folder, "touch", {"a b; touch c $(touch d)"}));
    CHECK(std::filesystem::exists(folder.path() + "/a b; touch c $(touch d)"));
    CHECK_FALSE(std::filesystem::exists(folder.path() + "/c"));
}

TEST_CASE("a child sees the date it is given") {
    const test::ScratchDirectory scratch;
    const ScratchFolder folder(scratch.path());
    Child child = make_child(folder, "sh", {"-c", "test $SOURCE_DATE_EPOCH = 86400"});
    child.source_date = "86400";
    CHECK(find_message(child).empty());
}

TEST_CASE("a scratch folder is gone with its contents") {
    const test::ScratchDirectory scratch;
    std::string path;
    {
        const ScratchFolder folder(scratch.path());
        path = folder.path();
        folder.write("table.csv", "a\n");
        CHECK(folder.read("table.csv") == "a\n");
    }
    CHECK_FALSE(std::filesystem::exists(path));
}

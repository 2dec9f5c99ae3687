// Full disks and folders without permission, for real where this machine allows it.
#include "publish/tables/write_files.h"

#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <functional>

#include "flattail/publish.h"
#include "support/catch.h"
#include "support/scratch_directory.h"
#include "unit/publish/invented_findings.h"

using namespace flattail;
using namespace flattail::publish;
using flattail::test::read_file;
using flattail::test::ScratchDirectory;
using flattail::test::write_file;

namespace {

std::size_t count_entries(const std::string& directory) {
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(directory)) {
        static_cast<void>(entry);
        ++count;
    }
    return count;
}

std::string message_of(const std::function<void()>& act) {
    try {
        act();
    } catch (const OutputFailed& error) {
        return error.what();
    }
    return "";
}

constexpr int kGood = 0;
constexpr int kBad = 1;
constexpr int kNotAllowed = 77;

// Runs `act` in a child process, so that limits and mounts die with it.
int run_apart(const std::function<bool()>& prepare, const std::function<bool()>& act) {
    const pid_t child = ::fork();
    if (child == 0) {
        int result = kBad;
        try {
            result = !prepare() ? kNotAllowed : act() ? kGood : kBad;
        } catch (...) {
            result = kBad;
        }
        ::_exit(result);
    }
    int status = -1;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : kBad;
}

// With a file system of 32 kB over `directory`, seen by that child alone.
int run_on_small_disk(const std::string& directory, unsigned long flags,
                      const std::function<bool()>& act) {
    const auto mount_disk = [&] {
        return ::unshare(CLONE_NEWNS) == 0 &&
               ::mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
               ::mount("tmpfs", directory.c_str(), "tmpfs", flags, "size=32k") == 0;
    };
    return run_apart(mount_disk, act);
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("files appear whole, in folders that are made for them") {
    const ScratchDirectory scratch;
    const std::string directory = scratch.path() + "/a/b";
    write_files_together(directory, {{"one.csv", "1\r\n"}, {"two.csv", ""}});
    CHECK(read_file(directory + "/one.csv") == "1\r\n");
    CHECK(read_file(directory + "/two.csv").empty());
    CHECK(count_entries(directory) == 2);
    write_files_together(directory, {{"one.csv", "new"}});
    CHECK(read_file(directory + "/one.csv") == "new");
    CHECK(count_entries(directory) == 2);
}

TEST_CASE("a file where a folder should be is refused by name") {
    const ScratchDirectory scratch;
    const std::string path = scratch.path() + "/taken";
    write_file(path, "mine");
    const std::string message = message_of([&] {
        write_files_together(path, {{"one.csv", "1"}});
    });
    CHECK(has(message, path + ": cannot be written ("));
    CHECK(has(message, " -> "));
    CHECK(read_file(path) == "mine");
    CHECK_FALSE(message_of([&] { prepare_tables_directory(path); }).empty());
}

TEST_CASE("a folder in the way of the last file keeps the earlier files") {
    const ScratchDirectory scratch;
    write_file(scratch.path() + "/one.csv", "old");
    std::filesystem::create_directory(scratch.path() + "/two.csv");
    const std::string message = message_of([&] {
        write_files_together(scratch.path(), {{"one.csv", "new"}, {"two.csv", "new"}});
    });
    CHECK(has(message, "two.csv: cannot be written ("));
    CHECK(read_file(scratch.path() + "/one.csv") == "old");
    CHECK(count_entries(scratch.path()) == 2);
}

TEST_CASE("a limit on file sizes keeps the earlier files and leaves nothing beside") {
    const ScratchDirectory scratch;
    const std::string& directory = scratch.path();
    write_tables(test::invent_findings({"old"}), directory);
    const std::string before = read_file(directory + "/findings.json");
    const auto limit_sizes = [] {
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit limit{4096, 4096};
        return ::setrlimit(RLIMIT_FSIZE, &limit) == 0;
    };
    const auto fails_cleanly = [&] {
        const std::string message =
            message_of([&] { write_tables(test::invent_findings({"new"}), directory); });
        return has(message, "findings.json: cannot be written (File too large)");
    };
    CHECK(run_apart(limit_sizes, fails_cleanly) == kGood);
    CHECK(read_file(directory + "/findings.json") == before);
    CHECK(has(read_file(directory + "/percentiles.csv"), "old"));
    CHECK_FALSE(has(read_file(directory + "/percentiles.csv"), "new"));
    CHECK(count_entries(directory) == 8);
}

TEST_CASE("a full disk keeps the earlier files and leaves nothing beside") {
    const ScratchDirectory scratch;
    const std::string& directory = scratch.path();
    const auto fails_cleanly = [&] {
        const std::string small(20000, 'o');
        write_files_together(directory, {{"one.csv", small}});
        const std::string message = message_of([&] {
            write_files_together(
                directory, {{"zero.csv", "0"}, {"one.csv", std::string(30000, 'n')}});
        });
        return has(message, "one.csv: cannot be written (No space left on device)") &&
               has(message, "free some space") &&
               read_file(directory + "/one.csv") == small &&
               count_entries(directory) == 1;
    };
    const int result = run_on_small_disk(directory, 0, fails_cleanly);
    if (result == kNotAllowed) {
        WARN("this user may not mount a small disk: a full one was not tried");
        return;
    }
    CHECK(result == kGood);
}

TEST_CASE("a read-only disk is refused before a study starts") {
    const ScratchDirectory scratch;
    const std::string& directory = scratch.path();
    const auto is_refused = [&] {
        const auto message =
            message_of([&] { prepare_tables_directory(directory + "/run"); });
        const auto second = message_of([&] { prepare_tables_directory(directory); });
        return has(message, "Read-only file system") &&
               has(second, "Read-only file system");
    };
    const int result = run_on_small_disk(directory, MS_RDONLY, is_refused);
    if (result == kNotAllowed) {
        WARN("this user may not mount: a read-only disk was not tried");
        return;
    }
    CHECK(result == kGood);
}

TEST_CASE("a folder without permission is refused and stays as it was") {
    if (::geteuid() == 0) {
        WARN("root may write everywhere: permissions were not tried");
        return;
    }
    const ScratchDirectory scratch;
    write_file(scratch.path() + "/one.csv", "old");
    ::chmod(scratch.path().c_str(), 0500);
    const std::string message = message_of([&] {
        write_files_together(scratch.path(), {{"one.csv", "new"}});
    });
    ::chmod(scratch.path().c_str(), 0700);
    CHECK(has(message, "Permission denied"));
    CHECK(read_file(scratch.path() + "/one.csv") == "old");
}

TEST_CASE("trying a folder leaves nothing in it") {
    const ScratchDirectory scratch;
    prepare_tables_directory(scratch.path() + "/new");
    CHECK(count_entries(scratch.path() + "/new") == 0);
}

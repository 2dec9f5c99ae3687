#include "publish/children/child.h"

#include <fmt/format.h>
#include <unistd.h>

#include <boost/process/args.hpp>
#include <boost/process/child.hpp>
#include <boost/process/env.hpp>
#include <boost/process/io.hpp>
#include <boost/process/search_path.hpp>
#include <boost/process/start_dir.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

#include "flattail/problem.h"

namespace flattail::publish {

namespace {

namespace bp = boost::process;

constexpr const char* kErrorFile = "errors.txt";
// Between two looks at a running child. Counting looks needs no clock, which only the
// program reads; a busy machine makes the limit longer, never shorter.
constexpr int kLookEvery_us = 5000;
constexpr int kLooksPerSecond = 1000000 / kLookEvery_us;
constexpr std::size_t kLongestMessage = 300;

std::string read_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) throw OutputFailed(path + ": cannot be read");
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

// The last line that says something.
std::string find_last_line(const std::string& text) {
    const std::size_t end = text.find_last_not_of(" \r\n\t");
    if (end == std::string::npos) return "it gave no reason";
    const std::size_t begin = text.find_last_of('\n', end) + 1;
    return text.substr(begin, std::min(end + 1 - begin, kLongestMessage));
}

bp::child start(const Child& child, const boost::filesystem::path& program,
                const std::string& error_path) {
    bp::environment environment = boost::this_process::environment();
    // set(), because operator[] of Boost 1.74 reads beyond variables with shorter names.
    if (!child.source_date.empty()) {
        environment.set("SOURCE_DATE_EPOCH", child.source_date);
    }
    std::error_code error;
    bp::child running(program, bp::args(child.words), bp::start_dir(child.directory),
                      bp::std_in<bp::null, bp::std_out> bp::null,
                      bp::std_err > error_path, environment, error);
    if (error) {
        throw OutputFailed(
            fmt::format("{} cannot be started ({})", child.program, error.message()));
    }
    return running;
}

// Whether it ended within its time.
bool wait_for_end(bp::child& running, int limit_s) {
    std::error_code error;
    for (int look = 0; look < limit_s * kLooksPerSecond; ++look) {
        if (!running.running(error)) return true;
        ::usleep(kLookEvery_us);
    }
    return !running.running(error);
}

}  // namespace

void run_child(const Child& child) {
    const boost::filesystem::path program = bp::search_path(child.program);
    if (program.empty()) {
        throw OutputFailed(fmt::format("{} is not installed -> apt install {}",
                                       child.program, child.package));
    }
    const std::string error_path = child.directory + "/" + kErrorFile;
    bp::child running = start(child, program, error_path);
    std::error_code error;
    if (!wait_for_end(running, child.limit_s)) {
        running.terminate(error);
        throw OutputFailed(fmt::format("{} took longer than {} s and was ended",
                                       child.program, child.limit_s));
    }
    if (running.exit_code() == 0) return;
    throw OutputFailed(fmt::format("{} failed: {}", child.program,
                                   find_last_line(read_file(error_path))));
}

ScratchFolder::ScratchFolder(const std::string& directory) {
    std::error_code ignored;
    std::filesystem::create_directories(directory, ignored);
    const auto place = std::filesystem::absolute(directory, ignored) / ".part.XXXXXX";
    path_ = place.string();
    if (::mkdtemp(path_.data()) == nullptr) {
        throw OutputFailed(directory +
                           ": cannot be written -> choose a folder you may "
                           "write to");
    }
}

ScratchFolder::~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

void ScratchFolder::write(const std::string& name, const std::string& text) const {
    std::ofstream file(path_ + "/" + name, std::ios::binary);
    file << text;
    file.close();
    if (!file) {
        throw OutputFailed(path_ + "/" + name +
                           ": cannot be written -> free some space or choose another "
                           "folder");
    }
}

std::string ScratchFolder::read(const std::string& name) const {
    return read_file(path_ + "/" + name);
}

}  // namespace flattail::publish

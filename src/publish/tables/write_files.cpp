#include "publish/tables/write_files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>
#include <utility>

#include "flattail/publish.h"

namespace flattail::publish {

namespace {

constexpr mode_t kFileMode = 0666;  // before the user's umask

// What a person can do about a system error.
const char* advise(int error) {
    switch (error) {
        case ENOSPC:
        case EDQUOT:
            return "free some space or choose another folder";
        case EFBIG:
            return "raise the limit on file sizes or choose another folder";
        case EISDIR:
            return "move that folder away or choose another one";
        default:
            return "choose a folder you may write to";
    }
}

[[noreturn]] void fail(const std::string& path, int error) {
    throw OutputFailed(fmt::format("{}: cannot be written ({}) -> {}", path,
                                   std::generic_category().message(error),
                                   advise(error)));
}

void make_directory(const std::string& directory) {
    std::error_code error;
    std::filesystem::create_directories(directory, error);
    if (!error && !std::filesystem::is_directory(directory, error) && !error) {
        fail(directory, ENOTDIR);
    }
    if (error) fail(directory, error.value());
}

// A file beside the one that is wanted; gone again unless it was moved into place.
class FileBeside {
  public:
    FileBeside(const std::string& directory, const std::string& name)
        : path_(directory + "/" + name),
          beside_(fmt::format("{}/.{}.{}.part", directory, name, ::getpid())) {}
    FileBeside(FileBeside&& other) noexcept
        : path_(std::move(other.path_)),
          beside_(std::exchange(other.beside_, std::string())) {}
    FileBeside(const FileBeside&) = delete;
    FileBeside& operator=(const FileBeside&) = delete;
    FileBeside& operator=(FileBeside&&) = delete;
    ~FileBeside() {
        if (!beside_.empty()) ::unlink(beside_.c_str());
    }

    void write(const std::string& text) const {
        const int file =
            ::open(beside_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, kFileMode);
        if (file < 0) fail(path_, errno);
        const int error = write_all(file, text);
        // Some file systems tell only here that the disk is full.
        const int closing_error = ::close(file) == 0 ? 0 : errno;
        if (error != 0) fail(path_, error);
        if (closing_error != 0) fail(path_, closing_error);
    }

    // Renaming cannot run out of space, but a folder may stand in the way.
    void check_place() const {
        std::error_code ignored;
        if (std::filesystem::is_directory(path_, ignored)) fail(path_, EISDIR);
    }

    void move_into_place() {
        if (std::rename(beside_.c_str(), path_.c_str()) != 0) fail(path_, errno);
        beside_.clear();
    }

  private:
    static int write_all(int file, const std::string& text) {
        std::size_t done = 0;
        while (done < text.size()) {
            const ssize_t count = ::write(file, text.data() + done, text.size() - done);
            if (count < 0 && errno == EINTR) continue;
            if (count < 0) return errno;
            done += static_cast<std::size_t>(count);
        }
        return ::fsync(file) == 0 || errno == EINVAL ? 0 : errno;
    }

    std::string path_;
    std::string beside_;
};

}  // namespace

void write_files_together(const std::string& directory,
                          const std::vector<NamedText>& files) {
    make_directory(directory);
    std::vector<FileBeside> beside;
    beside.reserve(files.size());
    for (const NamedText& file : files) {
        beside.emplace_back(directory, file.name);
        beside.back().check_place();
        beside.back().write(file.text);
    }
    for (FileBeside& file : beside) file.move_into_place();
}

}  // namespace flattail::publish

namespace flattail {

void prepare_tables_directory(const std::string& directory) {
    publish::make_directory(directory);
    publish::FileBeside(directory, "trial").write("trial\n");
}

}  // namespace flattail

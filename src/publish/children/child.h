// Programs run as children: gnuplot, rsvg-convert, weasyprint.
#pragma once

#include <string>
#include <vector>

namespace flattail::publish {

/// What to start. No shell reads the words.
struct Child {
    std::string program;  // looked for along PATH
    std::string package;  // Debian package that brings it
    std::vector<std::string> words;
    std::string directory;    // where it runs
    int limit_s = 60;         // ended when it takes longer
    std::string source_date;  // SOURCE_DATE_EPOCH, unless empty
};

/// Runs the child and waits for its end.
/// Errors: OutputFailed when the program is missing (naming the package), cannot be
///         started, takes too long or ends with an error (with the last line it wrote to
///         standard error)
void run_child(const Child& child);

/// A folder for files that pass between us and a child; gone with its contents at the end
/// of its life.
class ScratchFolder {
  public:
    /// Errors: OutputFailed when it cannot be made below `directory`
    explicit ScratchFolder(const std::string& directory);
    ~ScratchFolder();
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;

    const std::string& path() const { return path_; }
    /// Errors: OutputFailed
    void write(const std::string& name, const std::string& text) const;
    std::string read(const std::string& name) const;

  private:
    std::string path_;
};

}  // namespace flattail::publish

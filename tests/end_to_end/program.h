// Runs the built program and keeps what it said.
#pragma once

#include <sys/types.h>

#include <string>
#include <utility>
#include <vector>

namespace flattail::test {

struct Ran {
    int exit_code = -1;  // minus the signal's number when one ended it
    std::string output;
    std::string errors;
};

/// Starts the program in `directory` with its output in files, and waits for its end.
Ran run_program(const std::string& directory, const std::vector<std::string>& words);

/// The same with standard output sent to `output_path`.
Ran run_program_into(const std::string& directory, const std::string& output_path,
                     const std::vector<std::string>& words);

enum class NoColor { kUnset, kSet };

/// Starts the program on a terminal of its own; `output` holds both streams. When
/// `interrupt_at` is not empty, SIGINT is sent once that text was seen.
Ran run_on_terminal(const std::string& directory, const std::vector<std::string>& words,
                    NoColor no_color, const std::string& interrupt_at = "");

/// What to type at a prompt "> ", by words of the question; one line each time.
using Typed = std::vector<std::pair<std::string, std::vector<std::string>>>;

/// Starts the program on a terminal and answers it; an empty line where nothing is left
/// to say.
Ran talk_to_program(const std::string& directory, const std::vector<std::string>& words,
                    Typed typed);

bool contains(const std::string& text, const std::string& part);

/// Characters of the longest line.
std::size_t find_widest(const std::string& text);

/// Writes race.toml, a small race that needs no other file, into the folder.
void write_small_race(const std::string& directory);

}  // namespace flattail::test

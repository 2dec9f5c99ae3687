#include "end_to_end/program.h"

#include <fcntl.h>
#include <pty.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <csignal>

#include "support/scratch_directory.h"

namespace flattail::test {

namespace {

// The child becomes the program; 127 as shells have it when that fails.
[[noreturn]] void become_program(const std::string& directory,
                                 const std::vector<std::string>& words) {
    std::vector<std::string> all{FLATTAIL_PROGRAM};
    all.insert(all.end(), words.begin(), words.end());
    std::vector<char*> pointers;
    for (std::string& word : all) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    if (::chdir(directory.c_str()) == 0) ::execv(FLATTAIL_PROGRAM, pointers.data());
    ::_exit(127);
}

void send_to(int stream, const std::string& path) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
    if (file < 0 || ::dup2(file, stream) < 0) ::_exit(126);
}

int wait_for(pid_t child) {
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

}  // namespace

Ran run_program_into(const std::string& directory, const std::string& output_path,
                     const std::vector<std::string>& words) {
    const ScratchDirectory scratch;
    const std::string errors_path = scratch.path() + "/errors";
    const pid_t child = ::fork();
    if (child == 0) {
        send_to(STDOUT_FILENO, output_path);
        send_to(STDERR_FILENO, errors_path);
        become_program(directory, words);
    }
    Ran ran;
    ran.exit_code = wait_for(child);
    ran.errors = read_file(errors_path);
    return ran;
}

Ran run_program(const std::string& directory, const std::vector<std::string>& words) {
    const ScratchDirectory scratch;
    const std::string output_path = scratch.path() + "/output";
    Ran ran = run_program_into(directory, output_path, words);
    ran.output = read_file(output_path);
    return ran;
}

namespace {

struct OnTerminal {
    pid_t child = -1;
    int terminal = -1;
};

OnTerminal start_on_terminal(const std::string& directory,
                             const std::vector<std::string>& words, NoColor no_color) {
    OnTerminal started;
    winsize size{};
    size.ws_col = 80;
    size.ws_row = 24;
    started.child = ::forkpty(&started.terminal, nullptr, nullptr, &size);
    if (started.child != 0) return started;
    ::setenv("TERM", "xterm", 1);
    if (no_color == NoColor::kSet)
        ::setenv("NO_COLOR", "1", 1);
    else
        ::unsetenv("NO_COLOR");
    become_program(directory, words);
}

// Reads until the other end closes; `react` sees the whole output after each piece.
template <typename React>
Ran follow(const OnTerminal& started, React react) {
    Ran ran;
    if (started.child < 0) return ran;
    std::array<char, 4096> part;
    // Reading fails once the other end of a terminal is closed.
    for (ssize_t n; (n = ::read(started.terminal, part.data(), part.size())) > 0;) {
        ran.output.append(part.data(), static_cast<std::size_t>(n));
        react(ran.output);
    }
    ran.exit_code = wait_for(started.child);
    ::close(started.terminal);
    return ran;
}

// The first answer still to be given to a question that says one of the keys.
std::string take_answer(const std::string& question, Typed& typed) {
    for (auto& [key, lines] : typed) {
        if (lines.empty() || !contains(question, key)) continue;
        const std::string line = lines.front();
        lines.erase(lines.begin());
        return line;
    }
    return "";
}

}  // namespace

Ran run_on_terminal(const std::string& directory, const std::vector<std::string>& words,
                    NoColor no_color, const std::string& interrupt_at) {
    const OnTerminal started = start_on_terminal(directory, words, no_color);
    bool is_interrupted = interrupt_at.empty();
    return follow(started, [&](const std::string& output) {
        if (is_interrupted || !contains(output, interrupt_at)) return;
        ::kill(started.child, SIGINT);
        is_interrupted = true;
    });
}

Ran talk_to_program(const std::string& directory, const std::vector<std::string>& words,
                    Typed typed) {
    const OnTerminal started = start_on_terminal(directory, words, NoColor::kSet);
    std::size_t answered = 0;  // characters of the output up to the last prompt
    return follow(started, [&](const std::string& output) {
        if (output.size() < answered + 2 || output.substr(output.size() - 2) != "> ") {
            return;
        }
        const std::string question = output.substr(answered);
        answered = output.size();
        const std::string line = take_answer(question, typed) + '\n';
        if (::write(started.terminal, line.data(), line.size()) < 0) return;
    });
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::size_t find_widest(const std::string& text) {
    std::size_t widest = 0, width = 0;
    for (const char c : text) {
        width =
            c == '\n' ? 0 : width + ((static_cast<unsigned char>(c) & 0xC0u) != 0x80u);
        widest = std::max(widest, width);
    }
    return widest;
}

void write_small_race(const std::string& directory) {
    write_file(directory + "/race.toml", R"(
[race]
name = "Herons' short, invented"
course = { distance = "20 km", climb = "120 m" }
bike_start = "08:05"
goal = "0:34:00"
[rider]
mass = "70 kg"
position = "clip-ons"
power = "220 W"
[weather]
temperature = "16 C"
wind = "13 km/h"
from = "WSW"
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = { front = "68 psi", rear = "71 psi" }
[[setup]]
name = "Latex"
like = "Butyl"
inner = "latex"
)");
}

}  // namespace flattail::test

// The program: words in, one command, an exit code that tells what went wrong.
#include <exception>
#include <new>
#include <system_error>
#include <variant>

#include "app/command_line.h"
#include "app/commands.h"
#include "app/exit_code.h"
#include "app/terminal.h"
#include "flattail/problem.h"

namespace {

using namespace flattail::app;

ExitCode run(const std::vector<std::string>& words) {
    const std::variant<Request, Answer> read = read_command_line(words);
    if (const Answer* answer = std::get_if<Answer>(&read)) {
        write_output(answer->text);
        return ExitCode::kDone;
    }
    return run_command(std::get<Request>(read));
}

// Every error leaves here, as lines on standard error.
ExitCode run_guarded(const std::vector<std::string>& words) {
    try {
        return run(words);
    } catch (const flattail::InvalidInput& error) {
        for (const flattail::Problem& problem : error.problems()) {
            write_notice(flattail::format_problem(problem));
        }
        return ExitCode::kInputWrong;
    } catch (const flattail::OutputFailed& error) {
        write_notice(error.what());
        return ExitCode::kSurroundingsFailed;
    } catch (const std::system_error& error) {
        write_notice(std::string("the system refused: ") + error.what());
        return ExitCode::kSurroundingsFailed;
    } catch (const std::bad_alloc&) {
        write_notice("out of memory -> fewer --races or fewer setups");
        return ExitCode::kSurroundingsFailed;
    } catch (const std::exception& error) {
        write_notice(std::string("our mistake: ") + error.what() +
                     " -> please report it with the scenario that did this");
        return ExitCode::kOurMistake;
    }
}

}  // namespace

int main(int count, char** words) {
    // A program may be started without even its own name.
    const int first = count > 0 ? 1 : 0;
    return static_cast<int>(
        run_guarded(std::vector<std::string>(words + first, words + count)));
}

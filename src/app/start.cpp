#include "app/start.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>
#include <vector>

#include "app/start_file.h"
#include "app/terminal.h"
#include "flattail/scenario.h"

namespace flattail::app {

namespace {

bool is_terminal() { return isatty(STDIN_FILENO) != 0 && isatty(STDOUT_FILENO) != 0; }

// Lines of a terminal's width, set in by two.
std::string lay_out(const std::string& text) {
    constexpr std::size_t kWidth = 78;
    std::string laid, line;
    std::istringstream words(text);
    for (std::string word; words >> word;) {
        if (!line.empty() && line.size() + 1 + word.size() > kWidth) {
            laid += "  " + line + '\n';
            line.clear();
        }
        line += (line.empty() ? "" : " ") + word;
    }
    return laid + "  " + line + '\n';
}

// What is wrong with the answers so far, in the reader's words; empty when nothing is.
// The very reader that will read the file judges them.
std::string find_fault(const Answers& answers, const std::string& path) {
    try {
        ScenarioSource source;
        source.path = path;
        source.text = write_start_text(answers);
        read_scenario(source);
        return "";
    } catch (const InvalidInput& error) {
        const Problem& problem = error.problems().front();
        const std::string what = lay_out(problem.what);
        return problem.hint.empty() ? what : what + lay_out("-> " + problem.hint);
    }
}

std::string trim(const std::string& text) {
    const std::size_t first = text.find_first_not_of(" \t\r");
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

bool is_unknown(const std::string& answer) {
    return answer.empty() || answer == "?" || answer == "don't know" ||
           answer == "no idea";
}

// A course in a file makes the three questions for a course without one needless, and so
// do power and a past ride for what stands in for them.
bool is_needless(const Question& question, const Answers& answers) {
    const auto is_one_of = [&](std::initializer_list<const char*> keys) {
        return std::count(keys.begin(), keys.end(), question.key) > 0;
    };
    const auto has = [&](const char* key) { return answers.count(key) > 0; };
    if (is_one_of({"distance", "climb", "laps"})) return has("gpx");
    if (question.key == "past_ride") return has("power");
    if (question.key == "split") return has("power") || has("past_ride");
    return false;
}

// The choice that an answer begins, "Y" for "yes"; empty when it is none of them.
std::string choose(const Question& question, const std::string& answer) {
    if (question.choices.empty()) return answer;
    std::string lower = answer;
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    for (const std::string& choice : question.choices) {
        if (choice.rfind(lower, 0) == 0) return choice;
    }
    return "";
}

enum class Reply { kGiven, kBack, kEnd };

Reply ask(const Question& question, const std::string& path, Answers& answers) {
    while (true) {
        const auto given = answers.find(question.key);
        const std::string now =
            given == answers.end()
                ? ""
                : fmt::format("\n  now {}; an empty line keeps it", given->second);
        write_output(fmt::format("{}?\n  {}{}\n> ", question.text, question.hint, now));
        std::cout.flush();
        std::string line;
        if (!std::getline(std::cin, line)) return Reply::kEnd;
        const std::string answer = trim(line);
        if (answer == "back") return Reply::kBack;
        if (is_unknown(answer)) {
            if (!answer.empty()) answers.erase(question.key);
            return Reply::kGiven;
        }
        Answers tried = answers;
        tried[question.key] = choose(question, answer);
        const std::string fault = tried[question.key].empty()
                                      ? lay_out("write " + question.hint)
                                      : find_fault(tried, path);
        if (fault.empty()) {
            answers = std::move(tried);
            return Reply::kGiven;
        }
        write_output(fault);
    }
}

Answers ask_all(const std::string& path) {
    write_output(
        "A scenario in a few minutes. An empty line means \"don't know\": the program\n"
        "then uses a wide range or a default, and says so. \"back\" asks the question\n"
        "before once more.\n\n");
    Answers answers;
    const std::vector<Question>& questions = list_questions();
    std::vector<std::size_t> asked;  // the way back
    for (std::size_t i = 0; i < questions.size();) {
        if (is_needless(questions[i], answers)) {
            ++i;
            continue;
        }
        const Reply reply = ask(questions[i], path, answers);
        if (reply == Reply::kEnd) break;
        if (reply == Reply::kGiven) {
            asked.push_back(i++);
        } else if (!asked.empty()) {
            i = asked.back();
            asked.pop_back();
        }
    }
    return answers;
}

void write_file(const std::string& path, const std::string& text) {
    std::ofstream out(path, std::ios::binary);
    out << text;
    out.close();
    if (!out) {
        throw OutputFailed(path +
                           ": cannot be written -> choose a folder you may write to");
    }
}

}  // namespace

ExitCode run_start(const std::string& path) {
    if (std::filesystem::exists(path)) {
        throw InvalidInput({{{path, 0, 0},
                             "is there already",
                             "name a new file: flattail start my-race.toml"}});
    }
    const Answers answers = is_terminal() ? ask_all(path) : Answers{};
    write_file(path, write_start_text(answers));
    write_output(fmt::format(
        "\nWritten: {0}\nNext: flattail check {0}, flattail race {0}\n", path));
    return ExitCode::kDone;
}

}  // namespace flattail::app

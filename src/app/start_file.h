// The scenario that `flattail start` writes, from what a person could answer.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace flattail::app {

/// One thing to ask. An empty answer means "don't know".
struct Question {
    std::string key;                     // of the answers below
    std::string text;                    // "Your mass without the bicycle"
    std::string hint;                    // "70 kg", or the words to choose from
    std::vector<std::string> choices{};  // all that may be answered; empty: anything
};

/// All questions in the order in which a racer thinks of them.
const std::vector<Question>& list_questions();

using Answers = std::map<std::string, std::string>;

/// The scenario as commented TOML. What was not answered stands as a comment with its
/// default, or with a wide range where the program has no default; so the text always
/// runs.
std::string write_start_text(const Answers& answers);

}  // namespace flattail::app

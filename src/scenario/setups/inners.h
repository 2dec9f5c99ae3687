// What is known of each kind of inner, against butyl.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scenario/setups/parts.h"
#include "scenario/tested/tested_products.h"

namespace flattail::scenario {

/// The part that a word such as "latex" or "TPU" stands for; letter case is ignored.
std::optional<InnerPart> make_known_inner(const std::string& word);

/// The words for the inners that everyone knows.
std::vector<std::string> known_inner_words();

/// One entry of [[inner]]: a kind everyone knows, with what the user says differs.
std::optional<InnerPart> read_inner(const input::Node& node, const TestedProducts& tested,
                                    base::ProblemList& problems);

}  // namespace flattail::scenario

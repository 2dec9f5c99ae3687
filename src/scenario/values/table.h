// One table of the user's file, read strictly: a key that nobody asked for is an error.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem_list.h"
#include "input/toml/document.h"
#include "scenario/values/spec.h"

namespace flattail::scenario {

/// Words a value may take, each with its index as meaning.
using Words = std::vector<std::string>;

class Table {
  public:
    /// `node` may be null: then nothing is stated. A node that is no table is a problem.
    Table(const input::Node* node, std::string name, base::ProblemList& problems);

    bool is_stated() const { return node_ != nullptr; }
    const std::string& name() const { return name_; }
    /// Where the table stands; the file alone when it is not stated.
    const Place& place() const { return place_; }
    base::ProblemList& problems() { return *problems_; }

    /// The entry with this key, or null. Asking for a key makes it known.
    const input::Node* find(const std::string& key);
    /// The entry as a table of its own, nothing stated in it when absent.
    Table find_table(const std::string& key);
    std::optional<std::string> find_text(const std::string& key);
    std::optional<bool> find_boolean(const std::string& key);
    /// The index of the word that stands there; letter case is ignored.
    std::optional<std::size_t> find_word(const std::string& key, const Words& words);
    /// A certain value in SI, inside the limits of its spec.
    std::optional<double> find_value(const Spec& spec);

    void add_error(const input::Node& node, const std::string& what,
                   const std::string& hint);
    /// Call last: every key that was never asked for is a problem.
    void reject_unknown_keys();

  private:
    const input::Node* node_;
    std::string name_;
    Place place_;
    base::ProblemList* problems_;
    std::vector<std::string> known_;
};

/// The index of `word` among `words`, or nothing after a problem at the node.
std::optional<std::size_t> match_word(const input::Node& node, const std::string& what,
                                      const Words& words, base::ProblemList& problems);

/// A certain value in SI inside its limits, or nothing after a problem.
std::optional<double> read_value(const input::Node& node, const Spec& spec,
                                 base::ProblemList& problems);

/// Adds a problem and returns false when an SI value lies outside the limits of its spec.
bool check_limits(double value_si, const Spec& spec, const Place& place,
                  base::ProblemList& problems);

/// Lower case of the letters A to Z.
std::string fold_case(std::string_view text);

/// The words between quotes, with "or" before the last.
std::string list_words(const Words& words);

}  // namespace flattail::scenario

// A scenario file as a tree that remembers where each key and value was written.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem_list.h"

namespace flattail::input {

enum class NodeKind { kString, kInteger, kReal, kBoolean, kDatetime, kArray, kTable };

/// One value with its place. Inside a table it carries its key; entries keep their order.
struct Node {
    NodeKind kind = NodeKind::kTable;
    std::string key;   ///< name in the surrounding table; empty for elements of an array
    Place key_place;   ///< where the key stands; equal to `place` for elements
    Place place;       ///< where the value stands
    std::string text;  ///< the characters of a string; any other scalar as TOML writes it
    double number = 0;  ///< integers and reals; may be infinite or not a number
    std::int64_t integer = 0;
    bool boolean = false;
    std::vector<Node> items;  ///< entries of a table, elements of an array

    bool is(NodeKind wanted) const { return kind == wanted; }
    bool is_number() const { return is(NodeKind::kInteger) || is(NodeKind::kReal); }
    /// True for an array with at least one element whose elements are all tables.
    bool is_table_list() const;
    /// The table's entry with this key, or nullptr. Any other kind has no entries.
    const Node* find(std::string_view name) const;
    Node* find(std::string_view name);
};

/// The kind in a reader's words: "text", "a whole number", "a table" ...
std::string_view describe_kind(NodeKind kind);

/// The value as a short piece of TOML, for messages: "70 kg" (quoted), 5, a table ...
std::string describe_value(const Node& node);

/// The file name in places of values that came from the command line.
inline constexpr const char* kSetPlace = "--set";

struct Document {
    Node root;                       ///< always a table, `include` already resolved
    std::vector<std::string> files;  ///< every file read, the main file first
};

/// The file with its `include = ["lib.toml", ...]` merged under it: tables key by key and
/// the including file wins; lists of tables ([[setup]]) are joined, the included ones
/// last. Paths are relative to the including file; a file reached twice is merged once.
/// Errors: adds a problem for every missing, oversized, circular or malformed file and
/// then
///         leaves its content out; call problems.throw_if_errors() before using the tree.
Document read_toml(const std::string& path, base::ProblemList& problems);

/// The same for a text; `name` stands in places and includes are relative to its folder.
Document read_toml_text(std::string text, const std::string& name,
                        base::ProblemList& problems);

/// Puts what `own` lacks from a library into it, as `include` does: tables key by key,
/// what states one value as a whole, lists of tables joined.
void merge_below(Node& own, Node library, base::ProblemList& problems);

/// Carries out one KEY=VALUE of the command line, for instance
/// `rider.power=240 W` or `setup."Latex 28".pressure.front=70 psi`. An element of a list
/// is chosen by its `name`, else by its number from 1. VALUE is read as TOML when it is
/// TOML, else as text. Missing tables are made. Places inside are "--set".
void set_value(Document& document, const std::string& assignment,
               base::ProblemList& problems);

/// The path that a node's text names: relative to the folder of the file that says so, or
/// to the working folder when it was given by --set.
std::string resolve_path(const Node& node);

}  // namespace flattail::input

// Reading a scenario with the library files that it includes.
#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "input/text/text_file.h"
#include "input/toml/document.h"
#include "input/toml/toml_parser.h"

namespace flattail::input {

namespace {

// A scenario is typed by hand; a file beyond this is not one.
constexpr std::size_t kMostBytes = 4'000'000;

void merge_tables(Node& own, Node included, base::ProblemList& problems);

// A table that states one value is one statement: its keys must not mix with those of
// another, { mean, sd } with { low, high }.
bool states_value(const Node& table) {
    const auto has = [&](const char* one, const char* other) {
        return table.find(one) && table.find(other);
    };
    return has("mean", "sd") || has("median", "spread") || has("low", "high") ||
           has("flats", "distance") || has("from", "within") || table.find("samples");
}

void merge_entry(Node& own, Node included, base::ProblemList& problems) {
    const bool both_tables = own.is(NodeKind::kTable) && included.is(NodeKind::kTable);
    const bool both_lists = own.is_table_list() && included.is_table_list();
    if (both_tables && (states_value(own) || states_value(included))) return;
    if (both_tables) {
        merge_tables(own, std::move(included), problems);
    } else if (both_lists) {
        std::move(included.items.begin(), included.items.end(),
                  std::back_inserter(own.items));
    } else if ((own.is(NodeKind::kTable) && included.is_table_list()) ||
               (own.is_table_list() && included.is(NodeKind::kTable))) {
        const bool own_list = own.is_table_list();
        problems.add_error(
            own.key_place,
            fmt::format("{0} is a {1} here and a {2} in {3}, line {4}", own.key,
                        own_list ? "list" : "table", own_list ? "table" : "list",
                        included.key_place.file, included.key_place.line),
            fmt::format("write [[{0}]] in both files, or [{0}] in both", own.key));
    }
}

void merge_tables(Node& own, Node included, base::ProblemList& problems) {
    for (Node& entry : included.items) {
        if (Node* same = own.find(entry.key)) {
            merge_entry(*same, std::move(entry), problems);
        } else {
            own.items.push_back(std::move(entry));
        }
    }
}

std::string identify_file(const std::string& path) {
    std::error_code error;
    const std::filesystem::path same = std::filesystem::weakly_canonical(path, error);
    return error ? path : same.string();
}

class IncludeWalk {
  public:
    explicit IncludeWalk(base::ProblemList& problems) : problems_(problems) {}

    std::optional<Node> read(const std::string& path, const Place& asked_at) {
        std::optional<TextFile> file =
            read_text_file(path, kMostBytes, problems_, asked_at);
        return file ? parse_and_include(*file) : std::nullopt;
    }

    std::optional<Node> parse_and_include(const TextFile& file) {
        files.push_back(file.name);
        std::optional<Node> root = parse_toml(file, problems_);
        if (!root) return std::nullopt;
        open_.push_back(identify_file(file.name));
        seen_.push_back(open_.back());
        include_all(*root);
        open_.pop_back();
        return root;
    }

    std::vector<std::string> files;

  private:
    void include_all(Node& root) {
        const auto is_include = [](const Node& item) { return item.key == "include"; };
        const auto it = std::find_if(root.items.begin(), root.items.end(), is_include);
        if (it == root.items.end()) return;
        const Node include = std::move(*it);
        root.items.erase(it);
        if (include.is(NodeKind::kString)) include_one(root, include);
        for (const Node& item : include.items) {
            if (item.is(NodeKind::kString)) {
                include_one(root, item);
            } else {
                report_no_path(item);
            }
        }
        if (!include.is(NodeKind::kString) && !include.is(NodeKind::kArray)) {
            report_no_path(include);
        }
    }

    void include_one(Node& root, const Node& item) {
        const std::string path = resolve_path(item);
        const std::string identity = identify_file(path);
        if (std::find(open_.begin(), open_.end(), identity) != open_.end()) {
            problems_.add_error(
                item.place,
                fmt::format("{} includes itself (a circle of includes)", path),
                "take this entry out");
            return;
        }
        if (std::find(seen_.begin(), seen_.end(), identity) != seen_.end()) return;
        std::optional<Node> included = read(path, item.place);
        if (included) merge_tables(root, std::move(*included), problems_);
    }

    void report_no_path(const Node& node) {
        problems_.add_error(
            node.place,
            fmt::format("include holds {} (paths are wanted)", describe_value(node)),
            "write include = [\"lib.toml\"]");
    }

    base::ProblemList& problems_;
    std::vector<std::string> open_;
    std::vector<std::string> seen_;
};

Document make_document(IncludeWalk walk, std::optional<Node> root,
                       const std::string& name) {
    Document document;
    document.files = std::move(walk.files);
    document.root.place = document.root.key_place = {name, 1, 1};
    if (root) document.root = std::move(*root);
    return document;
}

}  // namespace

void merge_below(Node& own, Node library, base::ProblemList& problems) {
    merge_tables(own, std::move(library), problems);
}

Document read_toml(const std::string& path, base::ProblemList& problems) {
    IncludeWalk walk(problems);
    std::optional<Node> root = walk.read(path, {});
    return make_document(std::move(walk), std::move(root), path);
}

Document read_toml_text(std::string text, const std::string& name,
                        base::ProblemList& problems) {
    IncludeWalk walk(problems);
    std::optional<Node> root;
    if (auto file = check_text(std::move(text), name, kMostBytes, problems)) {
        root = walk.parse_and_include(*file);
    }
    return make_document(std::move(walk), std::move(root), name);
}

}  // namespace flattail::input

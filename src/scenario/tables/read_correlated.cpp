// Which uncertain values go together: [[correlated]] inputs, matrix.
#include <fmt/format.h>

#include <algorithm>

#include "chance/correlation.h"
#include "input/toml/node_values.h"
#include "scenario/tables/read_tables.h"

namespace flattail::scenario {

namespace {

using chance::CorrelationFault;
using input::Node;

constexpr const char* kExample =
    "write inputs = [\"rider.power\", \"rider.drag_area\"] and correlation = 0.5, or "
    "matrix = [[1, 0.5], [0.5, 1]]";

bool has_layer(const Input& input, Layer layer) {
    return layer == Layer::kLuck ? input.deviation != Deviation::kNone
                                 : input.knowledge.shape != Shape::kPoint;
}

bool is_sampled(const Input& input, Layer layer) {
    const Distribution& d = layer == Layer::kLuck ? input.luck : input.knowledge;
    return d.shape == Shape::kSamples;
}

const char* name_layer(Layer layer) {
    return layer == Layer::kLuck ? "changes each day" : "not known";
}

// One [[correlated]] table while it is read.
class Together {
  public:
    Together(Draft& draft, const Node& node, bool others_are_right)
        : draft_(draft),
          table_(&node, "correlated", draft.problems),
          others_are_right_(others_are_right) {}

    void read() {
        const int errors_before = draft_.problems.error_count();
        const Node* inputs = table_.find("inputs");
        const Node* matrix = table_.find("matrix");
        const Node* single = table_.find("correlation");
        static const Words kKinds = {"changes each day", "not known"};
        const auto kind = table_.find_word("kind", kKinds);
        where_used_ = table_.find_boolean("where_used").value_or(false);
        table_.reject_unknown_keys();
        if (!inputs || (matrix != nullptr) == (single != nullptr)) {
            draft_.problems.add_error(table_.place(),
                                      "correlated needs inputs and how they go together",
                                      kExample);
            return;
        }
        read_inputs(*inputs);
        matrix ? read_matrix(*matrix) : read_single(*single);
        if (draft_.problems.error_count() != errors_before) return;
        check_matrix(matrix ? *matrix : *single);
        if (where_used_ && draft_.problems.error_count() == errors_before) {
            leave_out_unused();
            if (group_.inputs.size() < 2) return;
        }
        if (!others_are_right_ || draft_.problems.error_count() != errors_before) return;
        settle_layer(*inputs, kind);
        if (draft_.problems.error_count() == errors_before) keep();
    }

  private:
    Input& input_of(InputId id) {
        return draft_.model.inputs[static_cast<std::size_t>(id.index)];
    }

    void fail(const Node& node, const std::string& what, const std::string& hint) {
        draft_.problems.add_error(node.place, "correlated: " + what, hint);
    }

    void read_inputs(const Node& list) {
        if (!list.is(input::NodeKind::kArray) || list.items.size() < 2 ||
            list.items.size() > kMostTogether) {
            return fail(list,
                        fmt::format("inputs is no list of 2 to {} names", kMostTogether),
                        kExample);
        }
        for (const Node& item : list.items) read_name(item);
    }

    void read_name(const Node& item) {
        const auto name = input::read_text(item, draft_.problems);
        if (!name) return;
        const auto& all = draft_.model.inputs;
        const auto found = std::find_if(all.begin(), all.end(),
                                        [&](const Input& i) { return i.name == *name; });
        if (found == all.end() && where_used_) return group_.inputs.push_back({});
        if (found == all.end()) return refuse_name(item, *name);
        const InputId id{static_cast<int>(found - all.begin())};
        for (const InputId other : group_.inputs) {
            if (other.index == id.index) {
                fail(item, fmt::format("\"{}\" is listed twice", *name), "list it once");
            }
        }
        group_.inputs.push_back(id);
    }

    void refuse_name(const Node& item, const std::string& name) {
        std::vector<std::string> known;
        for (const Input& input : draft_.model.inputs) {
            if (has_layer(input, Layer::kLuck) || has_layer(input, Layer::kKnowledge)) {
                known.push_back(input.name);
            }
        }
        const std::string nearest = base::find_nearest_name(name, known);
        fail(item, fmt::format("no uncertain value is called \"{}\"", name),
             nearest.empty() ? "`flattail check` lists the names, like rider.drag_area"
                             : fmt::format("did you mean \"{}\"?", nearest));
    }

    void read_single(const Node& node) {
        const auto r =
            input::read_quantity(node, input::Dimension::kNumber, draft_.problems);
        if (!r) return;
        if (group_.inputs.size() > 2) {
            return fail(node, "one correlation is for two inputs",
                        "write matrix, one row per input");
        }
        group_.matrix = {1.0, *r, *r, 1.0};
    }

    void read_matrix(const Node& node) {
        const std::size_t size = group_.inputs.size();
        const bool rows_fit =
            node.is(input::NodeKind::kArray) && node.items.size() == size &&
            std::all_of(node.items.begin(), node.items.end(), [&](const Node& row) {
                return row.is(input::NodeKind::kArray) && row.items.size() == size;
            });
        if (!rows_fit) {
            return fail(
                node,
                fmt::format("matrix does not have {} rows of {} numbers", size, size),
                kExample);
        }
        for (const Node& row : node.items) {
            for (const Node& entry : row.items) {
                const auto value = input::read_quantity(entry, input::Dimension::kNumber,
                                                        draft_.problems);
                group_.matrix.push_back(value.value_or(0.0));
            }
        }
    }

    void check_matrix(const Node& node) {
        const auto check = chance::check_correlation(
            group_.matrix, static_cast<int>(group_.inputs.size()));
        const std::string place =
            fmt::format("row {}, column {}", check.row + 1, check.column + 1);
        switch (check.fault) {
            case CorrelationFault::kNone:
            case CorrelationFault::kNotSquare:  // said already
                return;
            case CorrelationFault::kDiagonalNotOne:
                return fail(node, fmt::format("{} is not 1", place),
                            "write 1 where an input meets itself");
            case CorrelationFault::kNotSymmetric:
                return fail(node, fmt::format("{} differs from its mirror image", place),
                            "write the same number on both sides of the diagonal");
            case CorrelationFault::kNotFinite:
            case CorrelationFault::kOutsideOne:
                return fail(node, fmt::format("{} is not within -1 to 1", place),
                            "write a correlation from -1 to 1");
            case CorrelationFault::kNotPositiveDefinite:
                break;
        }
        fail(node,
             "the entries contradict each other (no three values can go together "
             "like this)",
             "bring them nearer to 0");
    }

    bool all_have(Layer layer) {
        return std::all_of(group_.inputs.begin(), group_.inputs.end(),
                           [&](InputId id) { return has_layer(input_of(id), layer); });
    }

    void settle_layer(const Node& list, std::optional<std::size_t> kind) {
        const bool luck = all_have(Layer::kLuck), knowledge = all_have(Layer::kKnowledge);
        if (luck && knowledge && !kind) {
            return fail(list, "each of these is not known and changes each day",
                        "say which goes together: kind = \"not known\" or \"changes each "
                        "day\"");
        }
        group_.layer = kind ? (*kind == 0 ? Layer::kLuck : Layer::kKnowledge)
                            : (luck ? Layer::kLuck : Layer::kKnowledge);
        for (std::size_t i = 0; !where_used_ && i < group_.inputs.size(); ++i) {
            check_member(list.items[i], input_of(group_.inputs[i]));
        }
        for (const Correlation& other : draft_.model.correlations) {
            if (other.layer == group_.layer) check_alone(list, other);
        }
    }

    // A library ties values that this scenario may not have, or states as certain.
    void leave_out_unused() {
        const std::size_t size = group_.inputs.size();
        Correlation kept;
        std::vector<std::size_t> places;
        for (std::size_t i = 0; i < size; ++i) {
            const InputId id = group_.inputs[i];
            if (!id.is_set() || !has_layer(input_of(id), Layer::kKnowledge) ||
                is_sampled(input_of(id), Layer::kKnowledge)) {
                continue;
            }
            kept.inputs.push_back(id);
            places.push_back(i);
        }
        for (const std::size_t row : places) {
            for (const std::size_t column : places) {
                kept.matrix.push_back(group_.matrix[row * size + column]);
            }
        }
        group_ = std::move(kept);
    }

    void check_member(const Node& item, const Input& input) {
        if (is_sampled(input, group_.layer)) {
            return fail(item,
                        fmt::format("{} is drawn by the rows of a file", input.name),
                        "let the rows of the file go together, and leave it out here");
        }
        if (has_layer(input, group_.layer)) return;
        const Layer own = group_.layer == Layer::kLuck ? Layer::kKnowledge : Layer::kLuck;
        if (!has_layer(input, own)) {
            return fail(item, fmt::format("{} is certain", input.name),
                        "write it with its doubt, like { low = ..., high = ... }, or "
                        "leave it out");
        }
        fail(item,
             fmt::format("{} is {}, while others here are {}", input.name,
                         own == Layer::kLuck ? "luck that changes each day" : "not known",
                         group_.layer == Layer::kLuck ? "luck that changes each day"
                                                      : "not known"),
             fmt::format("write kind = \"{}\" where it is stated, or leave it out",
                         name_layer(group_.layer)));
    }

    void check_alone(const Node& list, const Correlation& other) {
        for (std::size_t i = 0; i < group_.inputs.size(); ++i) {
            const bool taken = std::any_of(
                other.inputs.begin(), other.inputs.end(),
                [&](InputId id) { return id.index == group_.inputs[i].index; });
            if (!taken) continue;
            fail(list.items[i],
                 fmt::format("{} goes together with others already",
                             input_of(group_.inputs[i]).name),
                 "put all that go together into one table (a known ride ties power to "
                 "drag area by itself)");
        }
    }

    void keep() {
        for (const InputId id : group_.inputs) {
            Input& input = input_of(id);
            std::string others;
            for (const InputId other : group_.inputs) {
                if (other.index == id.index) continue;
                others += (others.empty() ? "" : ", ") + input_of(other).name;
            }
            input.source += "; goes together with " + others;
        }
        draft_.model.correlations.push_back(std::move(group_));
    }

    Draft& draft_;
    Table table_;
    bool others_are_right_;
    bool where_used_ = false;
    Correlation group_;
};

}  // namespace

void read_correlated(Draft& draft, const input::Node* list) {
    if (!list) return;
    const bool others_are_right = !draft.problems.has_errors();
    if (!list->is_table_list()) {
        draft.problems.add_error(list->place, "correlated is no list of tables",
                                 "write [[correlated]], then inputs and matrix");
        return;
    }
    for (const Node& node : list->items) Together(draft, node, others_are_right).read();
}

// Power from a file keeps its ordinary luck; what counts is the layer the rows are in.
void check_sample_rows(Draft& draft) {
    const auto& inputs = draft.model.inputs;
    for (const Input& one : inputs) {
        if (!is_sampled(one, Layer::kLuck)) continue;
        for (const Input& other : inputs) {
            if (!is_sampled(other, Layer::kKnowledge)) continue;
            if (other.draw_name != one.draw_name) continue;
            draft.problems.add_error(
                one.place,
                fmt::format(
                    "{} changes each day and {} is not known, but one file's rows "
                    "are drawn together",
                    one.name, other.name),
                "write the same kind beside both: kind = \"not known\" or \"changes each "
                "day\"");
        }
    }
}

}  // namespace flattail::scenario

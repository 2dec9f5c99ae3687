#include "scenario/logs/take_evidence.h"

#include "flattail/flat_log.h"
#include "input/text/text_file.h"
#include "input/toml/node_values.h"
#include "scenario/rider/repair_skill.h"
#include "scenario/values/defaults.h"
#include "scenario/values/table.h"

namespace flattail::scenario {

namespace {

using input::Node;

// What the rest of the scenario says about clumping and repairs is where a log's fit
// begins. Mistakes in those keys are told where they are read for good.
FlatLogOptions find_options(const Node& root) {
    FlatLogOptions options;
    base::ProblemList ignored;
    const Node* flats = root.find("flats");
    const Node* rider = root.find("rider");
    if (const Node* clumping = flats ? flats->find("clumping") : nullptr) {
        const auto value = read_value(*clumping, find_spec("flats.clumping"), ignored);
        options.clumping = value.value_or(options.clumping);
    }
    if (const Node* repair = rider ? rider->find("repair") : nullptr) {
        options.repair_s = find_repair_median_s(*repair).value_or(options.repair_s);
    }
    return options;
}

// What was fitted stands nowhere in a file; problems point at where the log is named.
void move_to(Node& node, const Place& place) {
    node.place = node.key_place = place;
    for (Node& item : node.items) move_to(item, place);
}

void take_flat_log(input::Document& document, const Node& node,
                   base::ProblemList& problems) {
    if (!input::read_text(node, problems)) return;
    const std::string path = input::resolve_path(node);
    // Says where the scenario names a file that is not there.
    base::ProblemList found;
    constexpr std::size_t kMostBytes = 64'000'000;
    if (!input::read_text_file(path, kMostBytes, found, node.place)) {
        for (const Problem& p : found.all()) problems.add_error(p.place, p.what, p.hint);
        return;
    }
    try {
        const FlatLog log = read_flat_log(path, find_options(document.root));
        for (const Problem& doubt : log.warnings) {
            problems.add_warning(doubt.place, doubt.what, doubt.hint);
        }
        input::Document library =
            input::read_toml_text(write_flat_library(log), path, problems);
        move_to(library.root, node.place);
        input::merge_below(document.root, std::move(library.root), problems);
    } catch (const InvalidInput& error) {
        for (const Problem& p : error.problems()) {
            problems.add_error(p.place, p.what, p.hint);
        }
    }
}

}  // namespace

void take_evidence(input::Document& document, base::ProblemList& problems) {
    Node* evidence = document.root.find("evidence");
    if (!evidence || !evidence->is(input::NodeKind::kTable)) return;
    if (const Node* flats = evidence->find("flats")) {
        const Node node = *flats;
        take_flat_log(document, node, problems);
    }
}

}  // namespace flattail::scenario

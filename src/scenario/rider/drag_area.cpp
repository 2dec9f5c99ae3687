#include "scenario/rider/drag_area.h"

#include <fmt/format.h>

#include <array>

#include "scenario/values/defaults.h"

namespace flattail::scenario {

namespace {

struct Position {
    const char* word;
    double drag_area_m2;
};

// CdA of rider and bicycle; common practice, 9 in 10 within 12 %. Differences between
// setups barely depend on it.
constexpr std::array<Position, 5> kPositions = {{{"hoods", .37},
                                                 {"drops", .33},
                                                 {"clip-ons", .29},
                                                 {"triathlon bike", .27},
                                                 {"very good", .23}}};
constexpr std::size_t kUsualPosition = 1;

// What else riders say, and the word for it.
struct Synonym {
    std::string_view said;
    const char* advice;
};
constexpr const char* kBars =
    "\"clip-ons\" for bars clipped to a road bicycle, \"triathlon bike\" for a bicycle "
    "made for them";
constexpr const char* kTimeTrial =
    "\"triathlon bike\", or \"very good\" when the position was tested and is low";
constexpr Synonym kSynonyms[] = {
    {"aero bars", kBars},
    {"aerobars", kBars},
    {"aero", kBars},
    {"tri bars", kBars},
    {"tribars", kBars},
    {"extensions", kBars},
    {"clip ons", kBars},
    {"clipons", kBars},
    {"tt", kTimeTrial},
    {"tt bike", kTimeTrial},
    {"time trial", kTimeTrial},
    {"time-trial bike", kTimeTrial},
    {"tri bike", kTimeTrial},
    {"triathlon", kTimeTrial},
    {"tops", "\"hoods\" (a little too fast for the tops), or drag_area itself"},
    {"upright", "\"hoods\" (too fast for upright), or drag_area itself"},
    {"road bike", "\"hoods\" or \"drops\", whichever is held longer"},
};

}  // namespace

const Words& position_words() {
    static const Words kWords = [] {
        Words words;
        for (const Position& position : kPositions) words.push_back(position.word);
        return words;
    }();
    return kWords;
}

std::optional<std::size_t> find_position(Table& table) {
    const input::Node* node = table.find("position");
    if (!node || !node->is(input::NodeKind::kString)) {
        return table.find_word("position", position_words());
    }
    const std::string said = fold_case(node->text);
    for (const Synonym& synonym : kSynonyms) {
        if (said != synonym.said) continue;
        table.add_error(
            *node, fmt::format("{}.position cannot be \"{}\"", table.name(), node->text),
            std::string("write ") + synonym.advice);
        return std::nullopt;
    }
    return table.find_word("position", position_words());
}

Spec make_drag_spec(std::size_t position) {
    constexpr double kWithin = 0.12;
    const double area = kPositions[position].drag_area_m2;
    Spec spec = with_usual(find_spec("rider.drag_area"), Form::kNormalRange,
                           area * (1 - kWithin), area, area * (1 + kWithin));
    spec.usual.source =
        fmt::format("common practice for \"{}\"", kPositions[position].word);
    return spec;
}

double compute_position_ratio(std::size_t position, std::size_t reference) {
    return kPositions[position].drag_area_m2 / kPositions[reference].drag_area_m2;
}

DragStatement read_drag_area(Draft& draft, Table& rider) {
    DragStatement statement;
    statement.position = find_position(rider);
    const input::Node* area = rider.find("drag_area");
    statement.is_stated = area != nullptr;
    if (area && rider.find("position")) {
        rider.add_error(*area,
                        "rider.drag_area and rider.position say the same thing twice",
                        "keep one of them");
    }
    draft.model.rider.drag_area_m2 = take_input(
        draft, rider, make_drag_spec(statement.position.value_or(kUsualPosition)));
    return statement;
}

}  // namespace flattail::scenario

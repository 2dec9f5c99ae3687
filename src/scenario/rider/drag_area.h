// How much air a rider pushes: stated, or by the position on the bicycle.
#pragma once

#include <cstddef>
#include <optional>

#include "scenario/draft.h"

namespace flattail::scenario {

/// The words for a position, the index is its place in the table.
const Words& position_words();

/// `position` of a table; what riders also call one gets the word that is meant.
std::optional<std::size_t> find_position(Table& table);

/// The drag area of a position with its range, as the spec of rider.drag_area.
Spec make_drag_spec(std::size_t position);

/// What was said about it.
struct DragStatement {
    std::optional<std::size_t> position;
    bool is_stated = false;  // an area, not a position
};

/// `rider.drag_area` or `rider.position`; adds the input.
DragStatement read_drag_area(Draft& draft, Table& rider);

/// Drag area of one position / that of another, from the table of positions.
double compute_position_ratio(std::size_t position, std::size_t reference);

}  // namespace flattail::scenario

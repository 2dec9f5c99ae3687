// Files of evidence that a scenario points at, turned into what it leaves unsaid.
#pragma once

#include "base/problem_list.h"
#include "input/toml/document.h"

namespace flattail::scenario {

/// Fits `evidence.flats`, a CSV of rides, and puts what it says below the document as a
/// library would: what the scenario states itself stays.
/// Errors:  problems of the file, each with its place in it
void take_evidence(input::Document& document, base::ProblemList& problems);

}  // namespace flattail::scenario

// The shipped scenarios as the benchmark uses them.
#pragma once

#include <string>
#include <vector>

#include "flattail/scenario.h"
#include "flattail/study.h"

namespace flattail::bench {

Scenario read_shipped(const std::string& name,
                      const std::vector<std::string>& settings = {});

/// The example with exact answers.
Scenario read_exact_flats();

/// The same scenario with this many setups: its own ones over and over, each round a
/// little softer.
Scenario with_setups(const Scenario& scenario, std::size_t count);

/// One thread, stratified days, nothing kept.
StudyOptions make_options(std::int64_t races, std::uint64_t seed = 1);

}  // namespace flattail::bench

// A scenario for briefs: a name of each kind, a setup of each kind.
#pragma once

#include <string>
#include <vector>

#include "flattail/findings.h"
#include "flattail/scenario.h"
#include "publish/brief/content.h"

namespace flattail::test {

/// Two setups, butyl and latex, as invented_findings has them; `extra` is added to the
/// end of the text.
Scenario read_brief_scenario(const std::vector<std::string>& settings = {},
                             const std::string& extra = "");

/// The content of a brief with the pump plan of its scenario.
publish::BriefContent make_content(const Findings& findings, const Scenario& scenario);

/// Names that break pages laid out without care.
std::vector<std::string> list_hostile_names();

std::string read_whole(const std::string& path);

}  // namespace flattail::test

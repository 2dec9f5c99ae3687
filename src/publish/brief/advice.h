// Which setup to ride, and why.
#pragma once

#include "publish/brief/content.h"

namespace flattail::publish {

/// Fills advice, certainty, reasons, deadlines and the setups that are shown.
void add_advice(const Findings& findings, const scenario::Model& model,
                const std::vector<std::string>& names, BriefContent& content);

}  // namespace flattail::publish

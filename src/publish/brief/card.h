// The brief as a message: at most 12 lines.
#pragma once

#include <string>

#include "publish/brief/content.h"

namespace flattail::publish {

/// At most 12 lines of at most 72 columns; what does not fit is on the page.
std::string write_card(const BriefContent& content);

}  // namespace flattail::publish

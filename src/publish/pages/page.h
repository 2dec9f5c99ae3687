// Pieces that the pages share.
#pragma once

#include <string>
#include <vector>

#include "flattail/publish.h"
#include "publish/pages/text_table.h"

namespace flattail::publish {

/// The lines, each with its line end.
std::string join_lines(const std::vector<std::string>& lines);

/// At least 80 columns, at most 160: longer lines are hard to follow.
PageOptions settle_options(PageOptions options);

/// A piece of a page below an empty line; nothing when it has no lines.
void append_section(std::vector<std::string>& page, std::vector<std::string> section);

/// A word in the margin and its text beside it, over as many lines as it takes.
void append_remark(std::vector<std::string>& page, const std::string& word,
                   const std::string& text, const PageOptions& options,
                   Ink ink = Ink::kPlain);

}  // namespace flattail::publish

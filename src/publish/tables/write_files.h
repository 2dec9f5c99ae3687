// Files that appear together or not at all.
#pragma once

#include <string>
#include <vector>

namespace flattail::publish {

struct NamedText {
    std::string name;  ///< without a folder
    std::string text;
};

/// Writes every text beside its place, then renames all of them: a full disk, a folder
/// that cannot be written or an interrupted run leaves the earlier files whole.
/// The folder is made when it is missing.
/// Errors: OutputFailed naming path, reason and what to do; nothing is left beside
void write_files_together(const std::string& directory,
                          const std::vector<NamedText>& files);

}  // namespace flattail::publish

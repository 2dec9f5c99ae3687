// Collects every problem of one stage, then fails once with all of them.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "flattail/problem.h"

namespace flattail::base {

class ProblemList {
  public:
    void add_error(Place place, std::string what, std::string hint) {
        list_.push_back(
            {std::move(place), std::move(what), std::move(hint), Severity::kError});
        ++errors_;
    }
    void add_warning(Place place, std::string what, std::string hint) {
        list_.push_back(
            {std::move(place), std::move(what), std::move(hint), Severity::kWarning});
    }
    bool has_errors() const { return errors_ > 0; }
    int error_count() const { return errors_; }
    const std::vector<Problem>& all() const { return list_; }

    /// Throws InvalidInput with every error (warnings stay behind) when there is one.
    void throw_if_errors() const;

  private:
    std::vector<Problem> list_;
    int errors_ = 0;
};

/// The entry of `known` that `word` most probably meant, or "" when none is near.
/// Distance: edits with swaps of neighbours (Damerau 1964), at most a third of the
/// length. Of two as near, the one that `word` has only dropped letters of.
std::string find_nearest_name(const std::string& word,
                              const std::vector<std::string>& known);

}  // namespace flattail::base

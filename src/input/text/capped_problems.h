// The same mistake in ten thousand rows is one story: the first few places, then a count.
#pragma once

#include <fmt/format.h>

#include <string>
#include <utility>

#include "base/problem_list.h"

namespace flattail::input {

class CappedProblems {
  public:
    explicit CappedProblems(base::ProblemList& problems) : problems_(problems) {}

    void add_error(Place place, std::string what, std::string hint) {
        if (++count_ > kShown) {
            first_hidden_ = first_hidden_.line > 0 ? first_hidden_ : std::move(place);
        } else {
            problems_.add_error(std::move(place), std::move(what), std::move(hint));
        }
    }

    /// Says how many more there were, once, after the last one.
    void finish(const std::string& hint) {
        if (count_ <= kShown) return;
        problems_.add_error(
            first_hidden_,
            fmt::format("and {} more of the same kind from here on", count_ - kShown),
            hint);
    }

    int count() const { return count_; }

  private:
    // Enough to see a pattern and few enough to read; nothing else depends on it.
    static constexpr int kShown = 10;

    base::ProblemList& problems_;
    int count_ = 0;
    Place first_hidden_;
};

}  // namespace flattail::input

// Rolling tests that a scenario names, and the parts that are said to be tested products.
#pragma once

#include <string>
#include <vector>

#include "evidence/rolling/belief.h"
#include "scenario/draft.h"

namespace flattail::scenario {

/// Products of all files of tests and all libraries made from such files.
class TestedProducts {
  public:
    TestedProducts() = default;
    /// Reads `evidence.rolling`: a file of tests, a table with `tests`, or a table with
    /// the products themselves, as `flattail evidence` writes it; or a list of these.
    /// Files of tests are pooled here and now; their doubts become warnings.
    TestedProducts(const input::Node* rolling, base::ProblemList& problems);

    /// Puts what is known of the product that `tested_as` names in place of `change`.
    /// A part that also states its change is a problem, as is a product nobody tested.
    TestedAs read(Table& part, const Spec& change_spec, Input& change) const;

    /// Ties the changes of all parts in use that stand for products of one file, and
    /// warns where a product was tested in another tyre, width or surface than it rides.
    void finish(Draft& draft) const;

  private:
    void read_entry(const input::Node& entry, base::ProblemList& problems);
    void tie_parts(Draft& draft, int belief) const;
    void warn_of_mismatch(Draft& draft, const Setup& setup, const Wheel& wheel,
                          const TestedAs& tested) const;

    std::vector<evidence::RollingBelief> beliefs_;
};

}  // namespace flattail::scenario

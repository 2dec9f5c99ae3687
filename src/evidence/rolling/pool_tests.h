// Rolling tests pooled, from converted rows to everything that is shown of them.
#pragma once

#include "base/problem_list.h"
#include "evidence/rolling/read_tests.h"
#include "flattail/evidence.h"

namespace flattail::evidence {

/// Pools rows. Problems when nothing can be compared; doubts stand in `warnings`.
/// `place` is where such a problem is reported.
/// Source:  METHOD 4.8 to 4.14
RollingEvidence pool_rows(const std::vector<TestRow>& rows, const RollingOptions& options,
                          const Place& place, base::ProblemList& problems);

/// Reads and pools a file that a scenario names at `asked_at`.
RollingEvidence pool_file(const std::string& path, const RollingOptions& options,
                          base::ProblemList& problems, const Place& asked_at = {});

}  // namespace flattail::evidence

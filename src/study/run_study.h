// A study with everything it was made of, for questions that go on from it.
#pragma once

#include <memory>

#include "findings/summary/study_sample.h"
#include "flattail/study.h"
#include "outcome/outcomes.h"
#include "study/blocks.h"
#include "study/knowledge.h"
#include "study/prepared.h"

namespace flattail::study {

struct WholeStudy {
    Prepared prepared;
    std::unique_ptr<outcome::Outcomes> outcomes;
    std::unique_ptr<findings::StudySample> sample;  // looks at the outcomes
    Learnt learnt;
    Findings findings;
};

/// What run_study does, keeping the days. The scenario must outlive it.
WholeStudy run_whole_study(const Scenario& scenario, const StudyOptions& options,
                           const BlockExecutor& run);

}  // namespace flattail::study

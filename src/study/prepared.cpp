#include "study/prepared.h"

#include <algorithm>

#include "base/instruction_set.h"

namespace flattail::study {

namespace {

base::InstructionSet choose_instructions(InstructionChoice choice) {
    const auto supported = base::supported_instruction_sets();
    base::InstructionSet wanted = base::detect_instruction_set();
    if (choice == InstructionChoice::kBaseline) wanted = base::InstructionSet::kBaseline;
    if (choice == InstructionChoice::kV3) wanted = base::InstructionSet::kV3;
    if (choice == InstructionChoice::kV4) wanted = base::InstructionSet::kV4;
    if (std::find(supported.begin(), supported.end(), wanted) != supported.end()) {
        return wanted;
    }
    throw InvalidInput({{{},
                         std::string("this machine does not offer the instruction set ") +
                             base::name_instruction_set(wanted),
                         "leave the choice to the program"}});
}

}  // namespace

Prepared prepare(const scenario::Model& model, const StudyOptions& options) {
    Prepared p;
    p.model = &model;
    p.seed = options.seed;
    const base::InstructionSet instructions = choose_instructions(options.instructions);
    p.kernel = &ride::find_kernel(instructions);
    p.road = std::make_unique<ride::Road>(ride::build_road(model));
    p.hazard = std::make_unique<sampling::RoadHazard>(p.road->segments,
                                                      model.flats.rough_pinch_ratio);
    sampling::DayPlanOptions days;
    days.seed = options.seed;
    days.grouped_days = options.draw == DrawKind::kStratified
                            ? static_cast<std::uint64_t>(options.races)
                            : 0;
    days.instructions = instructions;
    p.days = std::make_unique<sampling::DayPlan>(model, *p.hazard, p.road->mark_m, days);
    p.guesses = ride::fit_guesses(model, *p.road, *p.days, *p.kernel);
    return p;
}

}  // namespace flattail::study

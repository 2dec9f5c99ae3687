#include "base/instruction_set.h"

namespace flattail::base {
namespace {

// The lists follow the level definitions of the x86-64 psABI; what the compilers may emit
// under -march=x86-64-v3 and -v4 is exactly this, so all of it has to be there.
// __builtin_cpu_supports also asks the operating system whether it saves the wide
// registers.
bool has_v3() {
    return __builtin_cpu_supports("avx2") && __builtin_cpu_supports("bmi") &&
           __builtin_cpu_supports("bmi2") && __builtin_cpu_supports("fma") &&
           __builtin_cpu_supports("popcnt") && __builtin_cpu_supports("sse4.2");
}

bool has_v4() {
    return has_v3() && __builtin_cpu_supports("avx512f") &&
           __builtin_cpu_supports("avx512bw") && __builtin_cpu_supports("avx512cd") &&
           __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512vl");
}

}  // namespace

InstructionSet detect_instruction_set() {
    __builtin_cpu_init();
    if (has_v4()) return InstructionSet::kV4;
    if (has_v3()) return InstructionSet::kV3;
    return InstructionSet::kBaseline;
}

std::vector<InstructionSet> supported_instruction_sets() {
    switch (detect_instruction_set()) {
        case InstructionSet::kV4:
            return {InstructionSet::kBaseline, InstructionSet::kV3, InstructionSet::kV4};
        case InstructionSet::kV3:
            return {InstructionSet::kBaseline, InstructionSet::kV3};
        case InstructionSet::kBaseline:
            break;
    }
    return {InstructionSet::kBaseline};
}

const char* name_instruction_set(InstructionSet set) {
    switch (set) {
        case InstructionSet::kV4:
            return "v4";
        case InstructionSet::kV3:
            return "v3";
        case InstructionSet::kBaseline:
            break;
    }
    return "baseline";
}

}  // namespace flattail::base

// The instruction sets for which the hot loops are compiled, and the choice among them.
#pragma once

#include <vector>

namespace flattail::base {

/// The x86-64 levels of the System V ABI supplement: v1, v3 (AVX2), v4 (AVX-512).
enum class InstructionSet { kBaseline, kV3, kV4 };

/// The widest instruction set that this processor and its operating system offer.
InstructionSet detect_instruction_set();

/// Every instruction set that may be called here, baseline first.
std::vector<InstructionSet> supported_instruction_sets();

/// "baseline", "v3" or "v4".
const char* name_instruction_set(InstructionSet set);

}  // namespace flattail::base

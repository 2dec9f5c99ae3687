#include "sampling/vector_math.h"

namespace flattail::sampling {

namespace baseline {
const VectorMath& list_loops();
}
namespace v3 {
const VectorMath& list_loops();
}
namespace v4 {
const VectorMath& list_loops();
}

const VectorMath& vector_math(base::InstructionSet set) {
    switch (set) {
        case base::InstructionSet::kV4:
            return v4::list_loops();
        case base::InstructionSet::kV3:
            return v3::list_loops();
        case base::InstructionSet::kBaseline:
            break;
    }
    return baseline::list_loops();
}

}  // namespace flattail::sampling

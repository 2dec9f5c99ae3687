#include "ride/kernel/kernel.h"

namespace flattail::ride {

namespace baseline {
const Kernel& list_kernel();
}
namespace v3 {
const Kernel& list_kernel();
}
namespace v4 {
const Kernel& list_kernel();
}

const Kernel& find_kernel(base::InstructionSet set) {
    switch (set) {
        case base::InstructionSet::kV4:
            return v4::list_kernel();
        case base::InstructionSet::kV3:
            return v3::list_kernel();
        case base::InstructionSet::kBaseline:
            break;
    }
    return baseline::list_kernel();
}

}  // namespace flattail::ride

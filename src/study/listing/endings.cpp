#include "study/listing/endings.h"

namespace flattail::study {

const char* name_ending(ride::Ending ending) {
    switch (ending) {
        case ride::Ending::kFinished:
            return "finished";
        case ride::Ending::kNoSpare:
            return "no spare left";
        case ride::Ending::kCannotRepair:
            return "no repair and no help";
        case ride::Ending::kTyreDestroyed:
            return "tyre destroyed";
        default:
            return "over the cutoff";
    }
}

}  // namespace flattail::study

#include "sampling/address.h"

#include "base/lane_normal.h"
#include "sampling/philox.h"

namespace flattail::sampling {

double draw_uniform(const Address& address) {
    return draw_uniform_of_day({address.seed, address.input, address.draw}, address.day);
}

double draw_normal_score(const Address& address) {
    return base::lane::normal_quantile(draw_uniform(address));
}

}  // namespace flattail::sampling

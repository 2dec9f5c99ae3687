#include "publish/why_pictures/why_pictures.h"

#include "flattail/pictures.h"
#include "publish/check_findings.h"
#include "publish/pages/text.h"
#include "publish/pictures/page_sizes.h"
#include "publish/why/names.h"

namespace flattail::publish {

std::string write_why_title(const WhyFindings& why, const std::string& words) {
    return name_race(why.race) + ": " + words + ", " +
           clean_line(name_setup(why, find_subject(why))) + " against " +
           clean_line(name_setup(why, why.race.against));
}

}  // namespace flattail::publish

namespace flattail {

Drawn write_why_pictures(const WhyFindings& why, const std::string& directory) {
    using namespace publish;
    check_findings(why.race);
    PictureSet set;
    add_moves(why, set);
    add_break_even(why, set);
    add_trade_off(why, set);
    return write_drawn(set, directory);
}

}  // namespace flattail

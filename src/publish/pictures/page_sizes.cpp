#include "publish/pictures/page_sizes.h"

#include "publish/pages/text.h"

namespace flattail::publish {

void set_sizes(ScriptSettings& s) {
    s.set("WIDE_PX", kWide_px);
    s.set("PHONE_PX", kPhone_px);
    s.set("PAD_PX", kPad_px);
    s.set("WIDE_TYPE_PX", kWideType_px);
    s.set("PHONE_TYPE_PX", kPhoneType_px);
}

std::string name_race(const std::string& race_name) {
    const std::string name = clean_line(race_name);
    return name.empty() ? "This race" : name;
}

std::string name_race(const Findings& findings) {
    return name_race(findings.facts.race_name);
}

}  // namespace flattail::publish

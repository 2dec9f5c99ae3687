// The brief as one HTML page that needs no other file and no network.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "publish/brief/content.h"

namespace flattail::publish {

/// Named texts and lists of the same: what a template is filled from.
struct PageValues {
    std::map<std::string, std::string> texts;
    std::map<std::string, bool> flags;
    std::map<std::string, std::vector<PageValues>> lists;
};

/// Fills a mustache template; texts are escaped where it says {{x}}.
/// Errors: OurMistake when the template cannot be read
std::string fill_template(std::string_view page, const PageValues& values);

/// One picture in each form that a page asks for, as SVG text.
struct PictureForms {
    std::string wide, phone, wide_dark, phone_dark;
};

struct BriefPictures {
    PictureForms dots, course;  // empty where nothing could be drawn
};

PageValues list_brief_values(const BriefContent& content, const BriefPictures& pictures);

std::string write_brief_html(const BriefContent& content, const BriefPictures& pictures);

}  // namespace flattail::publish

// What to carry, check, do and look out for, as setup, rider and course have it.
#pragma once

#include "publish/brief/content.h"

namespace flattail::publish {

/// The blocks CARRY, CHECK, IF YOU FLAT and TAKE CARE.
/// Source: cautions of makers and coaches, common practice; hookless limit after ETRTO
void add_care(const Findings& findings, const scenario::Model& model, int advised,
              BriefContent& content);

/// The block CHANGES THE ADVICE; none without a sentence.
void add_turns(const std::vector<std::string>& turns, BriefContent& content);

/// The blocks RULED OUT and NOT MEASURED.
void add_doubts(const Findings& findings, const scenario::Model& model,
                const std::vector<std::string>& names, BriefContent& content);

}  // namespace flattail::publish

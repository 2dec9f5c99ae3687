// The road as a picture: height, wind along it, flat risk.
#pragma once

#include "publish/pictures/pictures.h"

namespace flattail::publish {

void add_course(const Findings& findings, const scenario::Model& model, PictureSet& set);

}  // namespace flattail::publish

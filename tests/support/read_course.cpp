#include "support/read_course.h"

#include <pugixml.hpp>

namespace flattail::support {

std::shared_ptr<const course::Course> read_course(const std::string& path) {
    pugi::xml_document document;
    const std::string file = std::string(FLATTAIL_SOURCE_DIR) + "/" + path;
    if (!document.load_file(file.c_str()))
        throw std::runtime_error("cannot read " + file);
    course::RawTrack track;
    const auto segment = document.child("gpx").child("trk").child("trkseg");
    for (const auto& node : segment.children("trkpt")) {
        course::RawPoint point;
        point.latitude_deg = node.attribute("lat").as_double();
        point.longitude_deg = node.attribute("lon").as_double();
        point.elevation_m = node.child("ele").text().as_double();
        track.points.push_back(point);
    }
    course::CourseRequest request;
    request.source = std::move(track);
    return std::make_shared<course::Course>(course::build_course(request));
}

}  // namespace flattail::support

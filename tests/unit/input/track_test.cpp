#include "input/tracks/track.h"

#include "problem_lines.h"
#include "support/catch.h"
#include "temporary_folder.h"

using namespace flattail;
using namespace flattail::input;
using Lines = std::vector<std::string>;

namespace {

// A GPX 1.1 file around some points.
std::string wrap(const std::string& points) {
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
           "<gpx version=\"1.1\" creator=\"a test\" "
           "xmlns=\"urn:gpx\">\n<trk><name>Lake</name><trkseg>\n" +
           points + "</trkseg></trk></gpx>\n";
}

Track read(const std::string& text, const Lines& warnings = {}) {
    base::ProblemList problems;
    auto track = read_gpx_text(text, "f.gpx", problems);
    CHECK(format_lines(problems) == warnings);
    REQUIRE(track);
    return *track;
}

Lines find_gpx_problems(const std::string& text) {
    base::ProblemList problems;
    CHECK_FALSE(read_gpx_text(text, "f.gpx", problems));
    return format_lines(problems);
}

Lines find_csv_problems(const std::string& text) {
    base::ProblemList problems;
    CHECK_FALSE(read_track_csv_text(text, "f.csv", problems));
    return format_lines(problems);
}

}  // namespace

TEST_CASE("points arrive with position, elevation, time and place") {
    const Track track =
        read(wrap("<trkpt lat=\"46.5\" lon=\"-7.25\"><ele>410.5</ele>"
                  "<time>2000-01-01T00:00:00Z</time></trkpt>\n"
                  " <trkpt lat=\"46.501\" lon=\"-7.25\"><ele> 411 </ele></trkpt>\n"));
    CHECK(track.name == "Lake");
    REQUIRE(track.points.size() == 2);
    CHECK(track.points[0].position->lat_deg == 46.5);
    CHECK(track.points[0].position->lon_deg == -7.25);
    CHECK(track.points[0].elevation_m == 410.5);
    CHECK(track.points[0].time_s == 946684800.0);
    CHECK(track.points[1].elevation_m == 411.0);
    CHECK_FALSE(track.points[1].time_s);
    CHECK(track.points[0].line == 4);
    CHECK(track.points[0].column == 1);
    CHECK(track.points[1].line == 5);
    CHECK(track.points[1].column == 2);
    CHECK(track.has_positions());
    CHECK_FALSE(track.has_distances());
}

TEST_CASE("names are matched whatever their prefix, and extensions are left alone") {
    const Track track = read(
        "<g:gpx xmlns:g=\"x\"><g:trk><g:trkseg>"
        "<g:trkpt lat=\"1\" "
        "lon=\"2\"><g:ele>5</g:ele><g:extensions><e:power>200</e:power>"
        "</g:extensions></g:trkpt>"
        "<g:trkpt lat=\"1.0001\" lon=\"2\"><g:ele>5</g:ele></g:trkpt>"
        "</g:trkseg></g:trk></g:gpx>");
    CHECK(track.points.size() == 2);
}

TEST_CASE("a route serves when there is no track") {
    const Track track = read(
        "<gpx><rte><rtept lat=\"1\" lon=\"2\"><ele>5</ele></rtept>"
        "<rtept lat=\"1.001\" lon=\"2\"><ele>5</ele></rtept></rte></gpx>");
    CHECK(track.points.size() == 2);
}

TEST_CASE("segments are joined, and gaps, backward times and missing heights are told") {
    // One minute of longitude on the equator of WGS 84 is 6378137 m x pi / 10800 = 1855.3
    // m.
    read(
        "<gpx><trk><trkseg>\n"
        "<trkpt lat=\"0\" "
        "lon=\"0\"><ele>1</ele><time>2000-01-01T00:00:09Z</time></trkpt>\n"
        "</trkseg><trkseg>\n"
        "<trkpt lat=\"0\" "
        "lon=\"0.016666666667\"><time>2000-01-01T00:00:08Z</time></trkpt>\n"
        "<trkpt lat=\"0\" lon=\"0.0167\"><ele>1</ele><time>noon</time></trkpt>\n"
        "</trkseg><trkseg>\n"
        "<trkpt lat=\"0\" lon=\"0.01671\"><ele>1</ele></trkpt>\n"
        "</trkseg></trk></gpx>",
        {"f.gpx:4:1: warning: a gap of 1855 m lies before this segment -> it is bridged "
         "by a "
         "straight line, fill it if that is wrong",
         "f.gpx:5:1: warning: time: \"noon\" is no date and time (1 such) -> write it "
         "like "
         "2026-06-14T08:05:00Z",
         "f.gpx:4:1: warning: time runs backwards at 1 point, first here -> check that "
         "the "
         "points stand in riding order",
         "f.gpx:4:1: warning: 1 of 4 points have no elevation, first here -> export the "
         "track "
         "with elevation"});
}

TEST_CASE("all bad points of a track are told at once") {
    CHECK(find_gpx_problems(
              wrap("<trkpt lat=\"91\" lon=\"0\"/>\n"
                   "<trkpt lat=\"1,5\" lon=\"181\"/>\n"
                   "<trkpt lon=\"abc\"><ele>nan</ele></trkpt>\n"
                   "<trkpt lat=\"1 N\" lon=\"0\"><ele>23000</ele></trkpt>\n")) ==
          Lines{
              "f.gpx:4:1: lat: 91 lies outside -90 to 90 degrees -> check that lat and "
              "lon are "
              "not swapped",
              "f.gpx:5:1: lat: \"1,5\" has a comma inside the number -> write 1.5 with a "
              "decimal point",
              "f.gpx:5:1: lon: 181 lies outside -180 to 180 degrees -> write the "
              "longitude east "
              "of Greenwich, west is negative",
              "f.gpx:6:1: the point has no lat -> write lat=\"...\" in degrees",
              "f.gpx:6:1: lon: \"abc\" does not start with a number -> write the number "
              "first, "
              "then its unit",
              "f.gpx:6:1: ele: \"nan\" is no finite number -> write a plain number",
              "f.gpx:7:1: lat: \"1 N\" is more than a number -> write 1 alone",
              "f.gpx:7:1: ele: 23000 m is no height of a road -> write the elevation in "
              "metres "
              "above the sea",
          });
}

TEST_CASE("a file that is no whole GPX track says so") {
    const std::string anew = " -> export the track anew; the file may be cut off";
    const std::vector<std::pair<std::string, Lines>> cases = {
        {"", {"f.gpx:1:1: is not whole XML (No document element found)" + anew}},
        {"<gpx>\n<trk>",
         {"f.gpx:2:5: is not whole XML (Start-end tags mismatch)" + anew}},
        {"<!DOCTYPE a [<!ENTITY b \"bbbb\"><!ENTITY c \"&b;&b;\">]>\n<gpx>&c;</gpx>",
         {"f.gpx:1: holds a DOCTYPE (GPX has none, and it can hide endless text) -> take "
          "the "
          "DOCTYPE out, or export the track anew"}},
        {"<kml/>",
         {"f.gpx:1:1: starts with <kml> (a GPX file starts with <gpx>) -> export the "
          "track as "
          "GPX 1.1"}},
        {"<gpx/>",
         {"f.gpx: has 0 track points (a course needs two or more) -> export the whole "
          "track as "
          "GPX 1.1"}},
        {wrap("<trkpt lat=\"1\" lon=\"1\"/>"),
         {"f.gpx: has 1 track point (a course needs two or more) -> export the whole "
          "track as "
          "GPX 1.1"}},
        {"<gpx><trk/>\n<trk/></gpx>",
         {"f.gpx:2:1: is track 2 of 2 in this file (one is wanted) -> keep one <trk> in "
          "the "
          "file"}},
    };
    for (const auto& [text, lines] : cases) {
        CAPTURE(text);
        CHECK(find_gpx_problems(text) == lines);
    }
}

TEST_CASE("a track without line ends is placed in time that grows with its length") {
    std::string points;
    for (int i = 0; i < 40'000; ++i) {
        points += "<trkpt lat=\"0\" lon=\"" + std::to_string(i * 1e-5) +
                  "\"><ele>1</ele></trkpt>";
    }
    const Track track = read("<gpx><trk><trkseg>" + points + "</trkseg></trk></gpx>");
    CHECK(track.points.size() == 40'000);
    CHECK(track.points.back().line == 1);
}

TEST_CASE("a course may be a table of distance and elevation, of positions, or of both") {
    base::ProblemList problems;
    const auto profile = read_track_csv_text(
        "distance_km;elevation_m\n0;410\n0,5;412,5\n", "f.csv", problems);
    REQUIRE(profile);
    CHECK(profile->points[1].distance_m == 500.0);
    CHECK(profile->points[1].elevation_m == 412.5);
    CHECK(profile->points[1].line == 3);
    CHECK_FALSE(profile->has_positions());
    const auto line = read_track_csv_text(
        "latitude,lon,ele [ft],note\n46.5,-7.25,1000,a\n46.6,-7.25,1000,b\n", "f.csv",
        problems);
    REQUIRE(line);
    CHECK(line->points[1].position->lat_deg == 46.6);
    CHECK(*line->points[1].elevation_m == Approx(304.8));
    CHECK_FALSE(line->has_distances());
    const auto both = read_track_csv_text(
        "distance_m,lat_deg,lon_deg,elevation_m\n0,46.5,7,1\n100,46.501,7,1\n", "f.csv",
        problems);
    REQUIRE(both);
    CHECK(both->has_distances());
    CHECK(both->points[0].position->lat_deg == Approx(46.5).epsilon(1e-15));
    CHECK(format_lines(problems).empty());
}

TEST_CASE("a course table that cannot be ridden says so") {
    const std::vector<std::pair<std::string, Lines>> cases = {
        {"distance_km,height_m\n0,1\n1,2\n",
         {"f.csv:1: has no column elevation (it has: distance, height) -> add a column "
          "elevation"}},
        {"distance_km,elevation_m\n0,1\n",
         {"f.csv: has 1 point (a course needs two or more) -> write one row for each "
          "point "
          "along the course"}},
        {"distance_km,elevation_m\n0,1\n2,1\n1.5,99999\n",
         {"f.csv:4:5: elevation: 99999 is no height of a road -> check number and unit",
          "f.csv:4:1: distance: 1.5 is less than in the row above -> write distances "
          "from the "
          "start, rising from row to row"}},
        {"lat,lon,elevation_m\n7.2,46.5,1\n97.2,46.5,1\n7.2,190,1\n",
         {"f.csv:3:1: lat: 97.2 lies outside -90 to 90 degrees -> check that lat and lon "
          "are "
          "not swapped",
          "f.csv:4:5: lon: 190 lies outside -180 to 180 degrees -> write the longitude "
          "east of "
          "Greenwich, west is negative"}},
        {"lat,elevation_m\n7.2,1\n7.3,1\n",
         {"f.csv:1: has a column lat and no column lon -> add a column lon"}},
    };
    for (const auto& [text, lines] : cases) {
        CAPTURE(text);
        CHECK(find_csv_problems(text) == lines);
    }
}

TEST_CASE("the ending of the file name tells the kind of course") {
    const TemporaryFolder folder;
    base::ProblemList problems;
    CHECK(read_track(folder.write("a.csv", "distance_m,elevation_m\n0,1\n9,1\n"),
                     problems));
    CHECK(read_track(folder.write("a.GPX", wrap("<trkpt lat=\"1\" lon=\"1\"><ele>1</ele>"
                                                "</trkpt><trkpt lat=\"1\" lon=\"1.1\">"
                                                "<ele>1</ele></trkpt>")),
                     problems));
    CHECK(format_lines(problems).empty());
    CHECK_FALSE(read_track("lakes.pdf", problems, {"s.toml", 1, 20}));
    CHECK(format_lines(problems) ==
          Lines{"s.toml:1:20: lakes.pdf is neither a .gpx nor a .csv file -> export the "
                "course "
                "as GPX 1.1, or write a CSV with distance and elevation"});
}

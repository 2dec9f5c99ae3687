// Files damaged at random: each is read or refused with a problem, never a crash or a
// throw.
#include <cmath>
#include <functional>
#include <random>

#include "input/tables/csv.h"
#include "input/toml/document.h"
#include "input/tracks/track.h"
#include "input/units/quantity.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::input;

namespace {

constexpr unsigned kSeed = 20260614;

const std::string kScenario =
    "# a comment\nrace = { course = \"lakes.gpx\", goal = \"2:35:00\" }\n"
    "kit = [\"tube\", 'plug']\nx.y = 1e-3\nwhen = 2026-06-14T08:05:00Z\n"
    "[rider]\nname = \"\"\"two\nlines\"\"\"\nmass = \"70 kg\" # \u00E9\n"
    "[[setup]]\nname = \"Butyl\"\npressure = { front = \"68 psi\", rear = 0x1F }\n"
    "[[setup]]\nname = \"Latex\"\nflag = true\n[setup.deep.er]\na = [1, [2.5, inf]]\n";

const std::string kTable =
    "distance_km;Surface;wind [km/h]\r\n0;smooth;\"1,5\"\r\n1,25;\"a "
    "\"\"b\"\"\r\nc\";2\r\n"
    ";;\r\n2;rough;3 m/s\r\n";

const std::string kTrack =
    "<?xml version=\"1.0\"?>\n<gpx xmlns:x=\"y\"><trk><name>A &amp; B</name><trkseg>\n"
    "<trkpt lat=\"46.5\" "
    "lon=\"7.25\"><ele>410</ele><time>2000-01-01T00:00:00Z</time></trkpt>\n"
    "<x:trkpt lat='46.6' lon='7.25'><ele><![CDATA[411]]></ele></x:trkpt>\n"
    "</trkseg><!-- c --></trk></gpx>\n";

// One to four random changes: a byte replaced, dropped or put in, a piece doubled or cut
// off.
std::string damage(const std::string& original, std::mt19937& random) {
    static const std::string kSharp = "[]{}=\"'\\\n\r,;.#<>&!?:-+0eE\t \0\x80\xC3\xFF";
    const auto below = [&](std::size_t n) { return n == 0 ? 0 : random() % n; };
    std::string text = original;
    for (std::size_t i = 0, changes = 1 + below(4); i < changes; ++i) {
        const std::size_t at = below(text.size());
        const char byte =
            below(2) == 0 ? kSharp[below(kSharp.size())] : static_cast<char>(below(256));
        switch (below(5)) {
            case 0:
                text.insert(at, 1, byte);
                break;
            case 1:
                text.erase(at, 1 + below(3));
                break;
            case 2:
                text.insert(at, text.substr(at, below(40)));
                break;
            case 3:
                text.resize(at);
                break;
            default:
                if (!text.empty()) text[at] = byte;
        }
    }
    return text;
}

void check_places(const base::ProblemList& problems) {
    for (const Problem& problem : problems.all()) {
        REQUIRE(problem.place.line >= 0);
        REQUIRE(problem.place.column >= 0);
        REQUIRE_FALSE(problem.what.empty());
        REQUIRE_FALSE(problem.hint.empty());
    }
}

}  // namespace

TEST_CASE("a damaged scenario is read or refused") {
    std::mt19937 random(kSeed);
    int refused = 0;
    for (int i = 0; i < 20'000; ++i) {
        base::ProblemList problems;
        Document document = read_toml_text(damage(kScenario, random), "f", problems);
        check_places(problems);
        if (problems.has_errors()) {
            ++refused;
            REQUIRE(document.root.items.empty());
        }
        set_value(document, damage("setup.\"Latex\".pressure.front=70 psi", random),
                  problems);
        check_places(problems);
    }
    CHECK(refused > 5'000);
    CHECK(refused < 20'000);
}

TEST_CASE("a damaged table is read or refused, and its numbers are finite") {
    std::mt19937 random(kSeed);
    for (int i = 0; i < 20'000; ++i) {
        base::ProblemList problems;
        const auto table = read_csv_text(damage(kTable, random), "f", problems);
        REQUIRE((table.has_value() || problems.has_errors()));
        if (table) {
            for (const auto& value : table->read_column("distance", Dimension::kLength,
                                                        Need::kOptional, problems)) {
                REQUIRE((!value || std::isfinite(*value)));
            }
            table->check_columns({"distance", "surface", "wind"}, problems);
        }
        check_places(problems);
    }
}

TEST_CASE("a damaged track is read or refused, and its numbers are in range") {
    std::mt19937 random(kSeed);
    for (int i = 0; i < 20'000; ++i) {
        base::ProblemList problems;
        const auto track = read_gpx_text(damage(kTrack, random), "f", problems);
        REQUIRE(track.has_value() != problems.has_errors());
        check_places(problems);
        if (!track) continue;
        for (const TrackPoint& point : track->points) {
            REQUIRE(std::abs(point.position->lat_deg) <= 90);
            REQUIRE(std::abs(point.position->lon_deg) <= 180);
            REQUIRE((!point.elevation_m || std::isfinite(*point.elevation_m)));
        }
    }
}

TEST_CASE("a damaged quantity is finite or refused with a reason") {
    std::mt19937 random(kSeed);
    const std::vector<std::string> samples = {"70 kg",         "8 min 30 s", "2:35:00",
                                              "1 per 3000 km", "1 in 20",    "247.5 deg",
                                              "-4.5e3 C"};
    for (int i = 0; i < 40'000; ++i) {
        const std::string text = damage(samples[random() % samples.size()], random);
        for (int d = 0; d <= static_cast<int>(Dimension::kPressurePerTime); ++d) {
            const auto value = parse_quantity(text, static_cast<Dimension>(d));
            if (value) {
                REQUIRE(std::isfinite(*value));
            } else {
                REQUIRE_FALSE(value.refusal().what.empty());
                REQUIRE_FALSE(format_hint(value.refusal(), "key").empty());
            }
        }
        parse_clock(text);
        parse_utc_time(text);
    }
}

// A log of flats on its way into a scenario: as a library, and pointed at.
#include "flattail/flat_log.h"

#include <algorithm>
#include <cmath>

#include "chance/distribution.h"
#include "flattail/scenario.h"
#include "scenario/model.h"
#include "support/catch.h"
#include "support/scratch_directory.h"

using namespace flattail;

namespace {

// Invented. Three flats on butyl, one on latex, one race.
const char* const kLog =
    "date,distance_km,flats,inner,tyre,surface,kind,repair_min\n"
    "2025-04-01,900.5,1,butyl,race 28 mm,ordinary,training,9\n"
    "2025-05-01,1100,2,butyl,race 28 mm,ordinary,training,6.5 + 12\n"
    "2025-06-01,800,0,butyl,race 28 mm,ordinary,training,\n"
    "2025-07-01,700,1,latex,race 28 mm,ordinary,training,\n"
    "2025-08-01,90,0,latex,race 28 mm,ordinary,race,\n";

const char* const kScenario = R"(
race    = { course = { distance = "90 km", climb = "400 m" }, bike_start = "08:05" }
rider   = { mass = "70 kg", position = "triathlon bike", power = "200 W" }
weather = { temperature = "16 C", wind = "13 km/h", from = "WSW" }
[[setup]]
name = "Butyl"
tyre = "race 28 mm"
inner = "butyl"
pressure = { front = "68 psi", rear = "71 psi" }
[[setup]]
name = "Latex"
like = "Butyl"
inner = "latex"
)";

class Folder {
  public:
    Folder() { write("rides.csv", kLog); }
    std::string write(const std::string& name, const std::string& text) {
        test::write_file(at(name), text);
        return at(name);
    }
    std::string at(const std::string& name) const {
        return directory_.path() + '/' + name;
    }
    Scenario read(const std::string& head, const std::string& tail = "",
                  const std::vector<std::string>& settings = {}) {
        return read_scenario({write("race.toml", head + kScenario + tail), settings});
    }

  private:
    test::ScratchDirectory directory_;
};

const Input& find_input(const Scenario& scenario, const std::string& name) {
    const auto& inputs = scenario.model().inputs;
    const auto found = std::find_if(inputs.begin(), inputs.end(),
                                    [&](const Input& i) { return i.name == name; });
    REQUIRE(found != inputs.end());
    return *found;
}

void check_belief(const Input& input, const Belief& belief) {
    CAPTURE(input.name);
    CHECK(input.origin == Origin::kFitted);
    CHECK(input.deviation == Deviation::kNone);
    for (const auto& [share, value] :
         {std::pair{.05, belief.low}, {.5, belief.mid}, {.95, belief.high}}) {
        CHECK(chance::quantile(input.knowledge, share) == Approx(value).epsilon(1e-4));
    }
    CHECK(chance::mean(input.knowledge) == Approx(belief.mean).epsilon(.02));
}

bool has_warning(const Scenario& scenario, const std::string& words) {
    const auto& all = scenario.warnings();
    return std::any_of(all.begin(), all.end(), [&](const Problem& problem) {
        return problem.what.find(words) != std::string::npos;
    });
}

}  // namespace

TEST_CASE("a library made from a log brings its beliefs back into a scenario") {
    Folder folder;
    const FlatLog log = read_flat_log(folder.at("rides.csv"));
    folder.write("flats.toml", write_flat_library(log));
    const Scenario scenario = folder.read("include = [\"flats.toml\"]\n");
    check_belief(find_input(scenario, "flats.training"), log.groups[0].rate_per_m);
    check_belief(find_input(scenario, "inner.latex.cuts"), log.groups[1].ratio);
    check_belief(find_input(scenario, "flats.race_factor"), log.races.factor);
    check_belief(find_input(scenario, "repair.median"), log.repairs.median_s);
    REQUIRE(scenario.model().correlations.size() == 1);
    CHECK(scenario.model().correlations[0].matrix[1] ==
          Approx(log.together[1]).epsilon(1e-4));
    CHECK(find_input(scenario, "flats.training").source ==
          "rides.csv: 3 flats in 2801 km on butyl; goes together with inner.latex.cuts");
}

TEST_CASE("pointing at the log and including its library are the same scenario") {
    Folder folder;
    folder.write("flats.toml", write_flat_library(read_flat_log(folder.at("rides.csv"))));
    const Scenario included = folder.read("include = [\"flats.toml\"]\n");
    const Scenario pointed = folder.read("evidence = { flats = \"rides.csv\" }\n");
    const Scenario without = folder.read("");
    CHECK(included.fingerprint() == pointed.fingerprint());
    CHECK(included.fingerprint() != without.fingerprint());
}

TEST_CASE("what a scenario states itself comes before the log") {
    Folder folder;
    const std::string tail =
        "[flats]\ntraining = { flats = 9, distance = \"4000 km\" }\n"
        "[[inner]]\nname = \"latex\"\nkind = \"latex\"\ncuts = 1.3\n";
    const Scenario scenario = folder.read("evidence = { flats = \"rides.csv\" }\n", tail);
    const Input& training = find_input(scenario, "flats.training");
    CHECK(training.origin == Origin::kStated);
    CHECK(chance::mean(training.knowledge) == Approx(9.5 / 4e6));
    CHECK(find_input(scenario, "inner.latex.cuts").knowledge.a == 1.3);
    // From the command line too; the rest of the log stays.
    const Scenario set = folder.read("evidence = { flats = \"rides.csv\" }\n", "",
                                     {"flats.training=1 per 1000 km"});
    CHECK(find_input(set, "flats.training").knowledge.a == Approx(1e-6));
    CHECK(find_input(set, "inner.latex.cuts").origin == Origin::kFitted);
}

TEST_CASE("a stated clumping and the rider's skill are where the fit begins") {
    Folder folder;
    const std::string head = "evidence = { flats = \"rides.csv\" }\n";
    const auto width = [](const Scenario& scenario) {
        const Distribution& d = find_input(scenario, "flats.training").knowledge;
        return chance::quantile(d, .95) / chance::quantile(d, .05);
    };
    CHECK(width(folder.read(head, "[flats]\nclumping = 3\n")) >
          1.05 * width(folder.read(head, "[flats]\nclumping = 1\n")));
    const auto median = [](const Scenario& scenario) {
        return chance::quantile(find_input(scenario, "repair.median").knowledge, .5);
    };
    CHECK(median(folder.read(head, "", {"rider.repair=slow"})) >
          1.2 * median(folder.read(head, "", {"rider.repair=practised"})));
}

TEST_CASE("wheels and roads that no logged ride had are told") {
    Folder folder;
    const std::string head = "evidence = { flats = \"rides.csv\" }\n";
    CHECK_FALSE(has_warning(folder.read(head), "in the log"));
    const Scenario other =
        folder.read(head,
                    "[[setup]]\nname = \"Other\"\nlike = \"Butyl\"\ninner = \"TPU\"\n"
                    "tyre = \"tough 30 mm\"\n",
                    {"road.surface=coarse"});
    CHECK(has_warning(other, "Other: no ride is on TPU in the log"));
    CHECK(has_warning(other, "Other: no ride is on the tyre tough 30 mm in the log"));
    CHECK(has_warning(other, "90 km of the course are coarse, and no ride is"));
}

TEST_CASE("a log that does not say what road it was on is not held against a course") {
    Folder folder;
    folder.write("rides.csv", "date,distance_km,flats\n2025-04-01,90,0\n");
    const Scenario scenario = folder.read("evidence = { flats = \"rides.csv\" }\n", "",
                                          {"road.surface=coarse"});
    CHECK_FALSE(has_warning(scenario, "in the log"));
}

TEST_CASE("what is doubtful in a log is said") {
    const FlatLog log = read_flat_log_text(
        "date,distance_km,flats,inner,tyre\n2025-04-01,40,1,,Old faithful\n"
        "2025-04-01,40,1,,race 28 mm\n2025-04-02,0,0,latex,\n",
        "rides.csv");
    const auto says = [&](const std::string& words) {
        return std::any_of(log.warnings.begin(), log.warnings.end(),
                           [&](const Problem& problem) {
                               return problem.what.find(words) != std::string::npos;
                           });
    };
    CHECK(says("2 rows name no inner and are taken as butyl"));
    CHECK(says("the same day, distance and flats"));
    CHECK(says("a ride of 0 km is left out"));
    CHECK(says("tyre \"Old faithful\" is taken for a race tyre"));
    CHECK(log.rides == 2);
}

TEST_CASE("a scenario without the log's inners takes the rest") {
    Folder folder;
    const std::string path = folder.write(
        "alone.toml",
        "evidence = { flats = \"rides.csv\" }\n" +
            std::string(kScenario).substr(0, std::string(kScenario).rfind("[[setup]]")));
    const Scenario scenario = read_scenario({path, {}});
    CHECK(find_input(scenario, "flats.training").origin == Origin::kFitted);
    CHECK(scenario.model().correlations.empty());
}

TEST_CASE("a log as spreadsheets save it says the same") {
    std::string saved = "\xEF\xBB\xBF";
    for (const char c : std::string(kLog)) {
        if (c == ',') {
            saved += ';';
        } else if (c == '.') {
            saved += ',';
        } else if (c == '\n') {
            saved += "\r\n";
        } else {
            saved += c;
        }
    }
    // Days as such a spreadsheet writes them.
    saved.replace(saved.find("2025-04-01"), 10, "01.04.2025");
    const FlatLog plain = read_flat_log_text(kLog, "rides.csv");
    const FlatLog log = read_flat_log_text(saved, "rides.csv");
    CHECK(log.first_date == "2025-04-01");
    CHECK(write_flat_library(log) == write_flat_library(plain));
}

TEST_CASE("a log names its groups by inner, by setup or not at all") {
    CHECK(read_flat_log_text(kLog, "rides.csv").by_inner);
    const FlatLog setups = read_flat_log_text(
        "date,distance_km,flats,setup\n2025-04-01,40,0,Old\n2025-04-02,90,1,new\n"
        "2025-04-03,80,0,New\n",
        "rides.csv");
    REQUIRE(setups.groups.size() == 2);
    CHECK(setups.groups[0].name == "new");
    CHECK(setups.groups[0].distance_m == Approx(170e3));
    CHECK_FALSE(setups.by_inner);
    const FlatLog plain =
        read_flat_log_text("date,distance_km,flats\n2025-04-01,40,0\n", "rides.csv");
    REQUIRE(plain.groups.size() == 1);
    CHECK(plain.groups[0].exact_per_m.low == 0.0);
    CHECK(plain.groups[0].exact_per_m.high == Approx(3.6888795 / 40e3));
}

TEST_CASE("only latex ridden: butyl is believed from it and from what is usual") {
    const FlatLog log = read_flat_log_text(
        "date,distance_km,flats,inner,rides\n2025-12-31,9000,12,Latex tube,180\n",
        "rides.csv");
    REQUIRE(log.groups.size() == 2);
    CHECK(log.groups[0].name == "butyl");
    CHECK(log.groups[0].distance_m == 0.0);
    CHECK(log.groups[1].name == "latex");
    CHECK(log.rides == 180);
    // 12 in 9,000 km is more than the usual 1 in 2,500; butyl follows, with more doubt.
    const Belief butyl = log.groups[0].rate_per_m, latex = log.groups[1].rate_per_m;
    CHECK(butyl.mid > .45e-6);
    CHECK(butyl.high / butyl.low > 1.2 * latex.high / latex.low);
    CHECK(std::isinf(log.groups[0].exact_per_m.high));
}

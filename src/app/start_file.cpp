#include "app/start_file.h"

#include <fmt/format.h>

#include <sstream>

namespace flattail::app {

namespace {

std::string quote(const std::string& text) {
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') quoted += '\\';
        quoted += c;
    }
    return quoted + '"';
}

/// Lines of one table; unanswered keys become comments.
class Lines {
  public:
    explicit Lines(const Answers& answers) : answers_(answers) {}

    bool has(const std::string& key) const { return !get(key).empty(); }
    std::string get(const std::string& key) const {
        const auto found = answers_.find(key);
        return found == answers_.end() ? "" : found->second;
    }
    void add(const std::string& line) { text_ += line + '\n'; }
    /// `name = "answer"`, or `# name = "example"` with a reason when there is none.
    void add_value(const std::string& name, const std::string& key,
                   const std::string& otherwise) {
        if (has(key)) {
            add(name + " = " + quote(get(key)));
        } else {
            add("# " + name + " = " + otherwise);
        }
    }
    /// The answer, or a stated value that stands in for it.
    void add_needed(const std::string& name, const std::string& key,
                    const std::string& stand_in) {
        add(name + " = " + (has(key) ? quote(get(key)) : stand_in));
    }
    const std::string& text() const { return text_; }

  private:
    const Answers& answers_;
    std::string text_;
};

std::vector<std::string> split_list(const std::string& text) {
    std::vector<std::string> parts;
    std::stringstream in(text);
    for (std::string part; std::getline(in, part, ',');) {
        const std::size_t first = part.find_first_not_of(' ');
        if (first == std::string::npos) continue;
        parts.push_back(part.substr(first, part.find_last_not_of(' ') - first + 1));
    }
    return parts;
}

void write_race(Lines& out) {
    out.add("[race]");
    out.add_value("name", "name", "\"My race\"");
    if (out.has("gpx")) {
        out.add("course = " + quote(out.get("gpx")));
    } else {
        out.add(fmt::format("course = {{ distance = {}, climb = {}, laps = {} }}",
                            quote(out.has("distance") ? out.get("distance") : "90 km"),
                            quote(out.has("climb") ? out.get("climb") : "500 m"),
                            out.has("laps") ? out.get("laps") : "1"));
        if (!out.has("distance") || !out.has("climb")) {
            out.add(fmt::format("# ^ {} not known: yours?", out.has("distance") ? "climb"
                                                            : out.has("climb")
                                                                ? "distance"
                                                                : "distance and climb"));
        }
        out.add("# A GPX file of the course is better: course = \"course.gpx\"");
    }
    out.add_value("bike_start", "start", "\"2026-06-14 08:05\"    # on the bike");
    out.add_value("goal", "goal", "\"2:35:00\"");
    out.add_value("cutoff", "cutoff", "\"4:30:00\"    # later than this is no finish");
}

// Whoever has no power meter has ridden somewhere, or expects a time.
void write_power(Lines& out) {
    const auto past = split_list(out.get("past_ride"));
    if (!past.empty() && !out.has("power")) {
        out.add(fmt::format("past_ride = {{ distance = {}, time = {}, climb = {} }}",
                            quote(past[0]), quote(past.size() > 1 ? past[1] : ""),
                            quote(past.size() > 2 ? past[2] : "0 m")));
    } else if (out.has("split") && !out.has("power")) {
        out.add("expected_split = " + quote(out.get("split")));
    } else {
        out.add_needed("power", "power",
                       "{ low = \"140 W\", high = \"240 W\", kind = \"not known\" }    "
                       "# yours?");
    }
}

void write_rider(Lines& out) {
    out.add("\n[rider]");
    out.add_value("name", "rider", "\"Me\"");
    out.add_needed("mass", "mass", "{ low = \"58 kg\", high = \"88 kg\" }    # yours?");
    out.add_value("position", "position",
                  "\"clip-ons\"    # hoods, drops, clip-ons, triathlon bike, very good");
    write_power(out);
    out.add_value("repair", "repair",
                  "\"ordinary\"    # practised, ordinary, slow, cannot");
}

void write_surroundings(Lines& out) {
    out.add("\n[weather]");
    out.add_value("temperature", "temperature", "\"15 C\"");
    out.add_value("wind", "wind", "\"10 km/h\"    # as forecast, 10 m above the ground");
    out.add_value("from", "from", "\"WSW\"    # every direction when not stated");
    out.add_value("rain", "rain", "\"10 %\"");
    out.add("\n[road]");
    const std::string road = out.get("road");
    const std::string surface = road == "rough" ? "coarse" : road;
    if (surface.empty()) {
        out.add("# surface = \"ordinary\"    # smooth, ordinary, coarse, cobbles");
    } else {
        out.add("surface = " + quote(surface));
    }
    if (out.has("worst")) {
        const auto ends = split_list(out.get("worst"));
        const std::string from = ends.empty() ? "" : ends[0];
        const std::string to = ends.size() > 1 ? ends[1] : "";
        out.add(
            fmt::format("stretch = [{{ from = {}, to = {}, surface = \"coarse\", "
                        "debris = 2 }}]",
                        quote(from), quote(to)));
    } else {
        out.add(
            "# stretch = [{ from = \"31 km\", to = \"33 km\", surface = \"coarse\", "
            "debris = 2 }]");
    }
}

// Common practice: 4.5 and 4.8 bar for 28 mm and a rider of ordinary mass; wide tyres
// less.
std::string write_pressure(const Lines& out) {
    const auto stated = split_list(out.get("pressure"));
    if (stated.size() > 1) {
        return fmt::format("pressure = {{ front = {}, rear = {} }}", quote(stated[0]),
                           quote(stated[1]));
    }
    if (stated.size() == 1) return "pressure = " + quote(stated[0]);
    return "pressure = { front = \"4.5 bar\", rear = \"4.8 bar\" }    # common practice "
           "for "
           "28 mm; yours?";
}

void write_rim(Lines& out) {
    const bool is_known = out.has("limit") || out.has("brake") || out.has("depth");
    if (!is_known && out.get("hookless") != "yes") {
        out.add(
            "# rim = { most = \"6.5 bar\", hookless = false, brake = \"disc\" }    # as "
            "marked on rim and tyre");
        return;
    }
    std::string rim = "rim = { ";
    if (out.has("limit")) rim += "most = " + quote(out.get("limit")) + ", ";
    if (out.has("depth")) rim += "depth = " + quote(out.get("depth")) + ", ";
    if (out.has("brake")) rim += "brake = " + quote(out.get("brake")) + ", ";
    out.add(rim + "hookless = " + (out.get("hookless") == "yes" ? "true" : "false") +
            " }");
}

// The stated limit is the lower of two: both are at least that, and no figure for the
// pump goes over it.
void write_tyre_limit(Lines& out) {
    if (!out.has("limit") || !out.has("tyre")) return;
    out.add("\n[[tyre]]    # as marked on its side");
    out.add("name = " + quote(out.get("tyre")));
    out.add("most = " + quote(out.get("limit")));
}

void write_setups(Lines& out) {
    const std::string inner = out.has("inner") ? out.get("inner") : "butyl";
    out.add("\n[[setup]]");
    out.add("name = " + quote(inner + " (on now)"));
    out.add_needed("tyre", "tyre",
                   "\"race 28 mm\"    # race, thin time-trial or tough, and mm");
    out.add("inner = " + quote(inner));
    out.add(write_pressure(out));
    out.add_value("ridden_since_fitting", "ridden", "\"0 km\"");
    std::vector<std::string> others = split_list(out.get("owned"));
    if (others.empty()) others = {inner == "latex" ? "butyl" : "latex"};
    for (const std::string& other : others) {
        out.add("\n[[setup]]");
        out.add("name = " + quote(other));
        out.add("like = " + quote(inner + " (on now)"));
        out.add("inner = " + quote(other));
        out.add("ridden_since_fitting = \"0 km\"");
    }
}

void write_top(Lines& out) {
    out.add(
        "# Written by flattail start. Change what is wrong, fill in what is commented "
        "out;");
    out.add("# `flattail check` shows what each line means and every default in use.\n");
    std::string kit;
    for (const std::string& item : split_list(out.get("kit"))) {
        kit += (kit.empty() ? "" : ", ") + quote(item);
    }
    out.add(kit.empty() ? "# kit = [\"tube\", \"cartridge 16 g\"]"
                        : "kit = [" + kit + "]");
    write_rim(out);
    out.add("");
}

void write_decision(Lines& out) {
    out.add("\n[repair]");
    if (out.get("help") == "officials") {
        out.add("help = \"officials\"");
    } else {
        out.add("# help = \"officials\"    # none, officials");
    }
    out.add("\n[preparation]");
    out.add_value("pumped", "pumped", "\"06:10\"    # pressures are read off then");
    out.add_value("at", "pumping_at", "\"12 C\"    # air and wheels, while pumping");
    out.add_value("gauge", "pump", "\"own\"    # own, stranger's");
    out.add("\n[decision]");
    out.add_value("rule", "hurts",
                  "\"mean time\"    # mean time, goal, finish, worst days");
}

}  // namespace

const std::vector<Question>& list_questions() {
    static const std::vector<Question> questions{
        {"name", "What is the race called", "such as Three Herons Middle"},
        {"start", "When are you on the bike (date and time)", "such as 2026-06-14 08:05"},
        {"gpx", "A GPX file of the course", "such as course.gpx"},
        {"distance", "Without a GPX: how long is the course", "such as 90 km"},
        {"climb", "Without a GPX: how much climb", "such as 500 m"},
        {"laps", "Without a GPX: how many laps", "such as 1"},
        {"road", "The road on the whole", "smooth, ordinary or rough"},
        {"worst", "Its worst stretch, from and to", "such as 31 km, 33 km"},
        {"rider", "Your name", "such as Tamsin"},
        {"mass", "Your mass without the bicycle", "such as 70 kg"},
        {"position", "Your position",
         "hoods, drops, clip-ons, triathlon bike or very good"},
        {"power", "The power you expect to hold", "such as 200 W"},
        {"past_ride", "Without it: a ride alone, its distance, time and climb",
         "such as 40 km, 1:05:00, 300 m"},
        {"split", "Without either: the time you expect here", "such as 2:35:00"},
        {"temperature", "Forecast: temperature while riding", "such as 16 C"},
        {"wind", "Forecast: wind", "such as 13 km/h"},
        {"from", "Forecast: wind from", "such as WSW"},
        {"rain", "Forecast: chance of rain", "such as 15 %"},
        {"tyre", "The tyre on the bike, kind and width",
         "such as race 28 mm, thin time-trial 25 mm or tough 28 mm"},
        {"inner", "What holds the air", "butyl, light butyl, TPU, latex or tubeless"},
        {"ridden", "How far ridden since it was fitted", "such as 200 km; with its unit"},
        {"pressure", "Its pressure, front and rear", "such as 68 psi, 71 psi"},
        {"limit", "The lower of the limits marked on rim and tyre", "such as 6.5 bar"},
        {"hookless", "Is the rim hookless", "yes or no", {"yes", "no"}},
        {"depth", "How deep the rim is (valves must reach through)", "such as 50 mm"},
        {"brake", "The brakes", "disc or rim"},
        {"owned", "What else could hold the air", "such as latex, TPU"},
        {"repair", "Who repairs, and how fast", "practised, ordinary, slow or cannot"},
        {"kit", "What you carry", "such as tube, tube, cartridge 16 g, cartridge 16 g"},
        {"help", "Help on the course", "none or officials", {"none", "officials"}},
        {"goal", "Your goal", "such as 2:35:00"},
        {"cutoff", "The cutoff for the bike leg", "such as 4:30:00"},
        {"hurts", "What the choice should go by",
         "mean time, goal, finish or worst days"},
        {"pumped", "When you pump, and read off those pressures", "such as 06:10"},
        {"pumping_at", "How warm air and wheels are then", "such as 12 C"},
        {"pump", "Whose pump you use", "own or stranger's"}};
    return questions;
}

std::string write_start_text(const Answers& answers) {
    Lines out(answers);
    write_top(out);
    write_race(out);
    write_rider(out);
    write_surroundings(out);
    write_decision(out);
    write_tyre_limit(out);
    write_setups(out);
    return out.text();
}

}  // namespace flattail::app

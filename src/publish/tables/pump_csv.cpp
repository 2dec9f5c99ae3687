// pump.csv and pressure.csv: RFC 4180, units in header names.
#include "flattail/preparation.h"
#include "publish/tables/csv_text.h"
#include "publish/tables/write_files.h"

namespace flattail {

namespace {

using publish::csv_number;
using publish::CsvText;

constexpr double kPsi_pa = 6894.757293168;  // NIST SP 811 (2008), appendix B.8
constexpr double kBar_pa = 1e5;
constexpr double kZeroCelsius_k = 273.15;
constexpr double kMinute_s = 60.0;

std::string psi(double pa) { return csv_number(pa / kPsi_pa); }
std::string bar(double pa) { return csv_number(pa / kBar_pa); }

std::string name_hold(const PumpFigure& figure) {
    if (figure.held_down) return "held down by a limit";
    return figure.held_up ? "held up by the tyre's least" : "";
}

class PumpTable {
  public:
    PumpTable()
        : csv_({"setup", "wheel", "figure", "weather", "at_c", "after_start_min",
                "gauge_psi", "gauge_bar", "low_psi", "high_psi", "note"}) {}

    void begin(const std::string& setup, const std::string& wheel) {
        setup_ = setup;
        wheel_ = wheel;
    }
    void add(const std::string& figure, double pa, const std::string& note = "") {
        add_row(figure, "", "", "", pa, note);
    }
    void add_likely(const std::string& figure, const LikelyPressure& pressure,
                    double time_s) {
        csv_.add_row({setup_, wheel_, figure, "", "", csv_number(time_s / kMinute_s),
                      psi(pressure.typical_pa), bar(pressure.typical_pa),
                      psi(pressure.low_pa), psi(pressure.high_pa), ""});
    }
    void add_timed(const std::string& figure, double pa, double time_s) {
        add_row(figure, "", "", csv_number(time_s / kMinute_s), pa, "");
    }
    void add_pump(const std::string& figure, const std::string& weather, double at_k,
                  double time_s, const PumpFigure& pump) {
        add_row(figure, weather, csv_number(at_k - kZeroCelsius_k),
                csv_number(time_s / kMinute_s), pump.gauge_pa, name_hold(pump));
    }
    const std::string& text() const { return csv_.text(); }

  private:
    void add_row(const std::string& figure, const std::string& weather,
                 const std::string& at_c, const std::string& time, double pa,
                 const std::string& note) {
        csv_.add_row({setup_, wheel_, figure, weather, at_c, time, psi(pa), bar(pa), "",
                      "", note});
    }

    CsvText csv_;
    std::string setup_, wheel_;
};

void add_pump_rows(const PumpPlan& plan, const WheelPump& wheel, PumpTable& table) {
    const double pump_s = plan.pump_clock_s - plan.start_clock_s;
    for (std::size_t i = 0; i < wheel.dry.size(); ++i) {
        table.add_pump("pump", "dry", plan.temperatures_k[i], pump_s, wheel.dry[i]);
        table.add_pump("pump", "raining", plan.temperatures_k[i], pump_s, wheel.wet[i]);
    }
    if (wheel.evening) {
        table.add_pump("pump", "dry", plan.evening_k,
                       plan.evening_clock_s - plan.start_clock_s, *wheel.evening);
    }
    if (wheel.cartridge_pa) table.add("one cartridge gives", *wheel.cartridge_pa);
}

void add_wheel_rows(const PumpPlan& plan, const WheelPump& wheel, PumpTable& table) {
    table.add("stated", wheel.stated_pa);
    table.add("wanted at the start", wheel.wanted_pa);
    table.add_likely("at the start", wheel.at_start, 0.0);
    table.add_likely("at the finish", wheel.at_finish, plan.times_s.back());
    add_pump_rows(plan, wheel, table);
    table.add("at the hottest moment", wheel.hottest_pa);
    if (wheel.most) table.add("at most", wheel.most->gauge_pa, wheel.most->whose);
    if (wheel.least) table.add("at least", wheel.least->gauge_pa, wheel.least->whose);
    table.add("many pinch flats below", wheel.pinch.gauge_pa, wheel.pinch.whose);
    for (std::size_t t = 0; t < plan.times_s.size(); ++t) {
        table.add_timed("on the way", wheel.on_the_way_pa[t], plan.times_s[t]);
    }
}

}  // namespace

std::string write_pump_csv(const PumpPlan& plan) {
    PumpTable table;
    for (const SetupPump& setup : plan.setups) {
        for (const WheelPump& wheel : setup.wheels) {
            table.begin(setup.name, wheel.wheel);
            add_wheel_rows(plan, wheel, table);
        }
    }
    return table.text();
}

std::string write_pressure_csv(const std::vector<SetupPressure>& setups) {
    CsvText csv({"setup", "wheel", "gauge_psi", "gauge_bar", "against_stated_s",
                 "against_stated_se_s", "flats_per_race", "best", "in_flat_region"});
    for (const SetupPressure& setup : setups) {
        for (const WheelPressure& wheel : setup.wheels) {
            for (const PressureTrial& trial : wheel.trials) {
                csv.add_row({setup.name, wheel.wheel, psi(trial.gauge_pa),
                             bar(trial.gauge_pa),
                             csv_number(trial.against_stated_s.value),
                             csv_number(trial.against_stated_s.standard_error),
                             csv_number(trial.flats_per_race),
                             trial.gauge_pa == wheel.best_pa ? "yes" : "no",
                             trial.in_flat_region ? "yes" : "no"});
            }
        }
    }
    return csv.text();
}

void write_pump_tables(const PumpPlan& plan, const std::vector<SetupPressure>& best,
                       const std::string& directory) {
    std::vector<publish::NamedText> files{{"pump.csv", write_pump_csv(plan)}};
    if (!best.empty()) files.push_back({"pressure.csv", write_pressure_csv(best)});
    publish::write_files_together(directory, files);
}

}  // namespace flattail

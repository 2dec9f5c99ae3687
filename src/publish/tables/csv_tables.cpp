#include "publish/tables/csv_tables.h"

#include <cmath>
#include <limits>

#include "publish/tables/csv_text.h"

namespace flattail::publish {

namespace {

// One row of tail-risk.csv; columns without a say about it stay empty.
struct TailRow {
    std::string figure;
    std::string threshold_s;
    std::string share_of_days;
    std::string chance, chance_se, chance_low, chance_high;
    std::string time_s, time_se_s;
    std::string flats_per_race, flats_per_race_se;
};

class TailTable {
  public:
    explicit TailTable(double effective_races)
        : csv_({"setup", "figure", "threshold_s", "share_of_days", "chance", "chance_se",
                "time_s", "time_se_s", "flats_per_race", "flats_per_race_se",
                "chance_low", "chance_high"}),
          effective_races_(effective_races) {}

    void begin(const std::string& setup) { setup_ = setup; }

    void add_chance(const std::string& figure, const Figure& chance,
                    const std::string& threshold_s = "") {
        TailRow row{};
        row.figure = figure;
        row.threshold_s = threshold_s;
        row.chance = csv_number(chance.value);
        row.chance_se = csv_number(chance.standard_error);
        const Interval limits = find_chance_limits(chance, effective_races_);
        row.chance_low = csv_number(limits.low);
        row.chance_high = csv_number(limits.high);
        add(row);
    }
    void add_time(const std::string& figure, const Figure& time_s,
                  const std::string& share_of_days = "") {
        TailRow row{};
        row.figure = figure;
        row.share_of_days = share_of_days;
        row.time_s = csv_number(time_s.value);
        row.time_se_s = csv_number(time_s.standard_error);
        add(row);
    }
    void add_cost(const std::string& figure, const Figure& cost_s, double share_of_days) {
        TailRow row{};
        row.figure = figure;
        row.share_of_days = csv_number(share_of_days);
        row.time_s = csv_optional(cost_s.value);
        row.time_se_s =
            std::isfinite(cost_s.value) ? csv_optional(cost_s.standard_error) : "";
        add(row);
    }
    void add_flats(const std::string& figure, const Figure& flats) {
        TailRow row{};
        row.figure = figure;
        row.flats_per_race = csv_number(flats.value);
        row.flats_per_race_se = csv_number(flats.standard_error);
        add(row);
    }
    const std::string& text() const { return csv_.text(); }

  private:
    void add(const TailRow& row) {
        csv_.add_row({setup_, row.figure, row.threshold_s, row.share_of_days, row.chance,
                      row.chance_se, row.time_s, row.time_se_s, row.flats_per_race,
                      row.flats_per_race_se, row.chance_low, row.chance_high});
    }
    CsvText csv_;
    double effective_races_;
    std::string setup_;
};

void add_tail_rows(TailTable& table, const SetupFindings& setup,
                   const Findings& findings) {
    table.begin(setup.name);
    for (std::size_t goal = 0; goal < setup.goals.size(); ++goal) {
        table.add_chance("goal met", setup.goals[goal],
                         csv_number(findings.goals_s[goal]));
    }
    table.add_chance("a flat", setup.flat);
    table.add_chance("two flats", setup.two_flats);
    table.add_chance("front flat", setup.front_flat);
    table.add_chance("flat at speed", setup.flat_at_speed);
    table.add_chance("front flat at speed", setup.front_flat_at_speed);
    table.add_flats("flats per race", setup.flats_per_race);
    for (const FlatCauseRow& row : setup.flats_by_cause) {
        table.add_flats("flats per race: " + row.wheel + " " + row.cause, row.per_race);
    }
    table.add_chance("lost to flats or no finish", setup.lose_long,
                     csv_number(findings.lost_by_flats_s));
    table.add_chance("no finish", setup.no_finish);
    if (findings.cutoff_s > 0.0 || !findings.cutoffs.empty()) {
        // Several have no one time.
        const bool one = findings.cutoffs.size() < 2;
        table.add_chance("over the cutoff", setup.over_cutoff,
                         one ? csv_number(findings.cutoff_s) : "");
    }
    for (const CauseRow& row : setup.no_finish_causes) {
        table.add_chance("no finish: " + row.cause, row.chance);
    }
    table.add_cost("a flat costs, median", {setup.flat_costs_s, setup.flat_costs_se_s},
                   0.5);
    table.add_cost("a flat costs, exceeded by 1 in 10",
                   {setup.flat_costs_often_s, setup.flat_costs_often_se_s}, 0.1);
    table.add_time("average judged time", setup.mean_judged_s);
    table.add_time("spread of judged times (sd)", setup.sd_judged_s);
    for (const WorstDaysRow& row : setup.worst_days) {
        table.add_time("average of the worst days", row.mean_s, csv_number(row.share));
    }
}

// Empty where so few days leave the limit open.
std::string write_low_limit(double low_s) {
    return low_s == -std::numeric_limits<double>::infinity() ? "" : csv_time(low_s);
}

class PairTable {
  public:
    explicit PairTable(double effective_races)
        : csv_({"setup", "against", "figure", "percent", "chance", "chance_se",
                "difference_s", "difference_se_s", "low_s", "high_s", "interval_share",
                "chance_low", "chance_high"}),
          effective_races_(effective_races) {}

    void begin(const std::string& setup, const std::string& against) {
        setup_ = setup;
        against_ = against;
    }
    void add_chance(const std::string& figure, const Figure& chance) {
        const Interval limits = find_chance_limits(chance, effective_races_);
        csv_.add_row({setup_, against_, figure, "", csv_number(chance.value),
                      csv_number(chance.standard_error), "", "", "", "", "",
                      csv_number(limits.low), csv_number(limits.high)});
    }
    void add_difference(const std::string& figure, const Figure& difference_s) {
        csv_.add_row({setup_, against_, figure, "", "", "",
                      csv_optional(difference_s.value),
                      csv_optional(difference_s.standard_error), "", "", "", "", ""});
    }
    void add_percentile(const PercentileRow& row) {
        csv_.add_row({setup_, against_, "judged difference", csv_number(row.percent), "",
                      "", csv_number(row.time_s), "", csv_optional(row.interval_s.low),
                      csv_optional(row.interval_s.high), "0.95", "", ""});
    }
    void add_range(const std::string& figure, const Interval& range_s) {
        csv_.add_row({setup_, against_, figure, "", "", "", "", "",
                      csv_number(range_s.low), csv_number(range_s.high), "0.9", "", ""});
    }
    void add_spread(const std::string& figure, const Figure& spread_s) {
        csv_.add_row({setup_, against_, figure, "", "", "", csv_number(spread_s.value),
                      csv_optional(spread_s.standard_error), "", "", "", "", ""});
    }
    const std::string& text() const { return csv_.text(); }

  private:
    CsvText csv_;
    double effective_races_;
    std::string setup_, against_;
};

void add_pair_rows(PairTable& table, const PairFindings& pair) {
    table.add_difference("mean judged difference", pair.mean_s);
    table.add_difference("median judged difference", pair.median_s);
    for (const PercentileRow& row : pair.percentiles) table.add_percentile(row);
    table.add_chance("faster (half the ties)", pair.faster);
    table.add_chance("tie", pair.ties);
    table.add_chance("both finish", pair.both_finish);
    table.add_chance("only setup finishes", pair.only_setup_finishes);
    table.add_chance("only against finishes", pair.only_against_finishes);
    table.add_chance("neither finishes", pair.neither_finishes);
    table.add_difference("difference of the 95th percentiles", pair.p95_difference_s);
    table.add_difference("mean judged difference, independent flats",
                         pair.mean_independent_s);
    table.add_chance("faster, independent flats", pair.faster_independent);
    if (pair.parts_known) {
        table.add_difference("part: rolling", pair.rolling_s);
        table.add_difference("part: air lost", pair.air_lost_s);
        table.add_difference("part: mass", pair.mass_s);
        table.add_difference("part: flats", pair.flats_s);
    }
    table.add_range("could be, over what is not known", pair.could_be_s);
    table.add_spread("sd over what is not known",
                     {pair.knowledge_sd_s, pair.knowledge_sd_se_s});
    table.add_spread("sd of one day", {pair.luck_sd_s, pair.luck_sd_se_s});
    table.add_spread("sd over race days, both together", pair.day_sd_s);
}

}  // namespace

std::string write_percentiles_csv(const Findings& findings) {
    CsvText csv({"setup", "percent", "finish_s", "finish_low_s", "finish_high_s"});
    for (const SetupFindings& setup : findings.setups) {
        for (const PercentileRow& row : setup.percentiles) {
            csv.add_row({setup.name, csv_number(row.percent), csv_time(row.time_s),
                         write_low_limit(row.interval_s.low),
                         csv_time(row.interval_s.high)});
        }
    }
    return csv.text();
}

std::string write_tail_risk_csv(const Findings& findings) {
    TailTable table(findings.facts.effective_races);
    for (const SetupFindings& setup : findings.setups) {
        add_tail_rows(table, setup, findings);
    }
    return table.text();
}

std::string write_paired_csv(const Findings& findings) {
    PairTable table(findings.facts.effective_races);
    const std::string& against =
        findings.setups[static_cast<std::size_t>(findings.against)].name;
    for (const PairFindings& pair : findings.pairs) {
        table.begin(findings.setups[static_cast<std::size_t>(pair.setup)].name, against);
        add_pair_rows(table, pair);
    }
    return table.text();
}

std::string write_histogram_csv(const Findings& findings) {
    const HistogramFindings& histogram = findings.histogram;
    CsvText csv({"setup", "from_s", "to_s", "share", "share_se"});
    if (histogram.edges_s.empty()) return csv.text();
    for (std::size_t s = 0; s < findings.setups.size(); ++s) {
        const std::size_t bins = histogram.shares[s].size();
        for (std::size_t bin = 0; bin < bins; ++bin) {
            const bool is_last = bin + 1 == bins;
            csv.add_row({findings.setups[s].name,
                         bin == 0 ? "0" : csv_number(histogram.edges_s[bin - 1]),
                         is_last ? "no finish" : csv_number(histogram.edges_s[bin]),
                         csv_number(histogram.shares[s][bin]),
                         histogram.standard_errors.empty()
                             ? ""
                             : csv_number(histogram.standard_errors[s][bin])});
        }
    }
    return csv.text();
}

}  // namespace flattail::publish

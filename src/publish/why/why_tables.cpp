// break-even.csv, sensitivity.csv, information.csv and trade-off.csv.
#include "flattail/why.h"
#include "publish/check_findings.h"
#include "publish/tables/csv_text.h"
#include "publish/tables/write_files.h"
#include "publish/why/names.h"

namespace flattail {

namespace {

using namespace publish;

const std::string& name_against(const WhyFindings& why) {
    return name_setup(why, why.race.against);
}

void append_scan(const WhyFindings& why, const BreakEvenFindings& found, CsvText& csv) {
    const std::string unit = name_unit(found.question);
    for (const ScanRow& row : found.scan) {
        csv.add_row({name_setup(why, found.setup), name_against(why),
                     name_question(found.question), unit, "scan", csv_number(row.at), "",
                     "", csv_number(row.difference.value),
                     csv_number(row.difference.standard_error), ""});
    }
}

void append_changes(const WhyFindings& why, const BreakEvenFindings& found,
                    CsvText& csv) {
    const std::string unit = name_unit(found.question);
    const std::string& setup = name_setup(why, found.setup);
    const auto add = [&](const std::string& row, const std::string& at,
                         const std::string& low, const std::string& high,
                         const std::string& note) {
        csv.add_row({setup, name_against(why), name_question(found.question), unit, row,
                     at, low, high, "", "", note});
    };
    if (!found.not_asked.empty()) {
        add("not asked", "", "", "", found.not_asked);
        return;
    }
    add("now", csv_number(found.now), csv_number(found.range.low),
        csv_number(found.range.high), "the range that was looked at");
    if (found.changes.empty()) add("never", "", "", "", "no change of sign");
    for (const BreakEvenRow& row : found.changes) {
        add("turns", csv_number(row.at),
            row.is_open_below ? "" : csv_number(row.interval.low),
            row.is_open_above ? "" : csv_number(row.interval.high),
            row.better_above ? "setup better above" : "setup better below");
    }
}

std::string write_break_even(const WhyFindings& why) {
    const std::string difference = why.in_chance ? "difference_chance" : "difference_s";
    CsvText csv({"setup", "against", "question", "unit", "row", "at", "low", "high",
                 difference, difference + "_se", "note"});
    for (const BreakEvenFindings& found : why.break_even) {
        append_changes(why, found, csv);
        append_scan(why, found, csv);
    }
    return csv.text();
}

class MovesTable {
  public:
    explicit MovesTable(const WhyFindings& why)
        : why_(why),
          csv_({"setup", "against", "row", "name", "unit", "low", "high", "at_low_s",
                "at_low_se_s", "at_high_s", "at_high_se_s", "spread_s", "spread_se_s",
                "share", "share_se", "share_with_others", "share_with_others_se"}) {}

    void add(const MovesFindings& moves) {
        setup_ = moves.setup;
        add_spread("sd over what is not known", moves.not_known_s);
        add_spread("sd of one day", moves.luck_s);
        add_row("the other is better", "", "", {}, {},
                {csv_number(moves.other_better.value),
                 csv_optional(moves.other_better.standard_error)},
                {});
        for (const FactFindings& f : moves.facts) {
            csv_.add_row(
                {name(), name_against(why_), "fact", f.name, f.unit, csv_number(f.low),
                 csv_number(f.high), csv_number(f.at_low_s.value),
                 csv_optional(f.at_low_s.standard_error), csv_number(f.at_high_s.value),
                 csv_optional(f.at_high_s.standard_error), "", "",
                 csv_number(f.first.value), csv_optional(f.first.standard_error),
                 csv_number(f.total.value), csv_optional(f.total.standard_error)});
        }
        for (const GroupFindings& g : moves.groups) {
            add_row("group", g.name, "", {}, {},
                    {csv_number(g.first.value), csv_optional(g.first.standard_error)},
                    {csv_number(g.total.value), csv_optional(g.total.standard_error)});
        }
        add_row("interaction", "", "", {}, {}, {csv_number(moves.interaction), ""}, {});
    }
    const std::string& text() const { return csv_.text(); }

  private:
    struct Pair {
        std::string value, error;
    };
    const std::string& name() const { return name_setup(why_, setup_); }
    void add_row(const std::string& row, const std::string& fact, const std::string& unit,
                 const Pair& low, const Pair& spread, const Pair& first,
                 const Pair& total) {
        csv_.add_row({name(), name_against(why_), row, fact, unit, low.value, low.error,
                      "", "", "", "", spread.value, spread.error, first.value,
                      first.error, total.value, total.error});
    }
    void add_spread(const std::string& row, const Figure& spread) {
        add_row(row, "", "", {},
                {csv_number(spread.value), csv_optional(spread.standard_error)}, {}, {});
    }

    const WhyFindings& why_;
    CsvText csv_;
    int setup_ = 0;
};

std::string write_sensitivity(const WhyFindings& why) {
    MovesTable table(why);
    for (const MovesFindings& moves : why.moves) table.add(moves);
    return table.text();
}

const char* name_learning(Learning learning) {
    switch (learning) {
        case Learning::kEverything:
            return "everything";
        case Learning::kOneFact:
            return "one fact";
        case Learning::kRiding:
            return "600 km more";
        case Learning::kTest:
            break;
    }
    return "one more test";
}

std::string write_information(const WhyFindings& why) {
    const std::string worth = why.information.in_chance ? "worth_chance" : "worth_s";
    CsvText csv(
        {"learning", "name", "label", "share_learnt", worth, worth + "_se", "note"});
    if (!why.information.why_not.empty()) {
        csv.add_row({"not told", "", "", "", "", "", why.information.why_not});
    }
    for (const InformationRow& row : why.information.rows) {
        csv.add_row({name_learning(row.learning), row.name, row.label,
                     csv_number(row.share), csv_number(row.worth.value),
                     csv_optional(row.worth.standard_error), ""});
    }
    return csv.text();
}

const char* name_varied(Varied varied) {
    switch (varied) {
        case Varied::kPressure:
            return "pressure";
        case Varied::kKit:
            return "kit";
        case Varied::kNothing:
            break;
    }
    return "nothing";
}

// A change and its error, empty cells where there is none.
void append_change(std::vector<std::string>& cells, const Figure& change) {
    cells.push_back(csv_number(change.value));
    cells.push_back(csv_optional(change.standard_error));
}

std::vector<std::string> start_row(const std::string& setup, const char* varied,
                                   const std::string& words, const Figure& typical_s,
                                   const Figure& bad_days_s) {
    return {setup,
            varied,
            words,
            csv_time(typical_s.value),
            csv_optional(typical_s.standard_error),
            csv_number(bad_days_s.value),
            csv_optional(bad_days_s.standard_error)};
}

void append_variant(const WhyFindings& why, const VariantRow& row, CsvText& csv) {
    std::vector<std::string> cells =
        start_row(name_setup(why, why.variants.setup), name_varied(row.varied), row.words,
                  row.typical_s, row.bad_days_s);
    cells.push_back(row.beaten_by);
    cells.push_back(row.ruled_out);
    for (const Figure* change :
         {&row.typical_change_s, &row.bad_days_change_s, &row.average_change_s}) {
        append_change(cells, *change);
    }
    cells.insert(cells.end(), 4, "");
    csv.add_row(cells);
}

void append_setup(const WhyFindings& why, const TradeOffRow& row, CsvText& csv) {
    const SetupFindings& setup = why.race.setups[static_cast<std::size_t>(row.setup)];
    std::vector<std::string> cells =
        start_row(setup.name, "setup", "", row.typical_s, row.bad_days_s);
    cells.push_back(row.beaten_by < 0 ? "" : name_setup(why, row.beaten_by));
    cells.push_back(setup.vetoed && !setup.cautions.empty() ? setup.cautions.front()
                                                            : "");
    cells.insert(cells.end(), 6, "");
    cells.push_back(row.price ? csv_number(*row.price) : "");
    append_change(cells, row.saved_s);
    cells.push_back(row.price_per_s ? csv_number(*row.price_per_s) : "");
    csv.add_row(cells);
}

std::string write_trade_off(const WhyFindings& why) {
    CsvText csv({"setup", "varied", "variant", "typical_s", "typical_se_s",
                 "worst_1_in_20_s", "worst_1_in_20_se_s", "beaten_on_both_by",
                 "ruled_out_by", "typical_change_s", "typical_change_se_s",
                 "worst_change_s", "worst_change_se_s", "average_change_s",
                 "average_change_se_s", "costs_more", "saved_s", "saved_se_s",
                 "costs_per_second"});
    for (const TradeOffRow& row : why.trade_off) append_setup(why, row, csv);
    for (const VariantRow& row : why.variants.rows) append_variant(why, row, csv);
    return csv.text();
}

}  // namespace

void write_why_tables(const WhyFindings& why, const std::string& directory) {
    check_findings(why.race);
    write_files_together(directory, {{"break-even.csv", write_break_even(why)},
                                     {"sensitivity.csv", write_sensitivity(why)},
                                     {"information.csv", write_information(why)},
                                     {"trade-off.csv", write_trade_off(why)}});
}

}  // namespace flattail

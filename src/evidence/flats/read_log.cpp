#include "evidence/flats/read_log.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <tuple>

#include "input/text/capped_problems.h"
#include "input/text/number_text.h"
#include "input/text/text_file.h"

namespace flattail::evidence {

namespace {

using input::CappedProblems;
using input::CsvTable;
using input::Dimension;
using input::Need;

const std::vector<std::string> kColumns{"date",  "distance", "flats",   "inner",
                                        "setup", "tyre",     "surface", "wet",
                                        "kind",  "rides",    "repair",  "note"};
// One ride; longer ones are most probably metres or a sum.
constexpr double kLongestRide_m = 1.2e6;
constexpr int kMostFlats = 10;     // on one ride
constexpr int kMostRides = 10000;  // in one row
constexpr double kShortestRepair_s = 30.0;
constexpr double kLongestRepair_s = 4 * 3600.0;
constexpr std::array<const char*, 4> kSurfaceWords = {"smooth", "ordinary", "coarse",
                                                      "cobbles"};

std::string count_flats(int flats) {
    return flats == 1 ? "1 flat" : fmt::format("{} flats", flats);
}

// 3/1/2026 is a day in January for some and in March for others.
std::string advise_on_date(const std::string& text) {
    const bool slashes = text.find('/') != text.npos;
    return std::string(slashes ? "dates with slashes are read both ways round: " : "") +
           "write 2026-06-14 or 14.06.2026";
}

class LogReader {
  public:
    LogReader(const CsvTable& table, base::ProblemList& problems)
        : table_(table), problems_(problems), rows_(table.rows.size()) {}

    LogRides read() {
        table_.check_columns(kColumns, problems_);
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            rows_[i].place = {table_.file, table_.rows[i].front().line, 0};
        }
        read_days();
        read_words();
        read_counts();
        read_repairs();
        const bool right = !problems_.has_errors();
        if (right) check_rows();
        if (right) warn_of_twins();
        LogRides read;
        read.has_inner = table_.has_column("inner");
        read.has_setup = table_.has_column("setup");
        read.has_surface = table_.has_column("surface");
        if (right && read.has_inner) warn_of_unnamed_inners();
        for (LogRide& row : rows_) {
            if (row.distance_m > 0.0) read.rides.push_back(std::move(row));
        }
        return read;
    }

  private:
    Place place_of(std::size_t row, const char* column) const {
        const auto index = table_.find_column(column);
        return index ? table_.place_of(table_.rows[row][*index]) : rows_[row].place;
    }

    std::vector<std::string> read_texts(const char* column, Need need) {
        auto texts = table_.read_text_column(column, need, problems_);
        texts.resize(rows_.size());
        return texts;
    }

    void read_days() {
        const auto texts = read_texts("date", Need::kRequired);
        CappedProblems capped(problems_);
        for (std::size_t i = 0; i < texts.size(); ++i) {
            if (texts[i].empty()) continue;  // said already, or no such column
            const auto day = read_day(texts[i]);
            if (day) {
                rows_[i].day = *day;
                continue;
            }
            capped.add_error(place_of(i, "date"),
                             fmt::format("date: \"{}\" is no day", texts[i]),
                             advise_on_date(texts[i]));
        }
        capped.finish("correct column date");
    }

    // Hands each non-empty word of a column to `take`, which says whether it fits.
    template <class Take>
    void read_choice(const char* column, const char* hint, Take take) {
        const auto texts = read_texts(column, Need::kOptional);
        CappedProblems capped(problems_);
        for (std::size_t i = 0; i < texts.size(); ++i) {
            if (texts[i].empty() || take(rows_[i], texts[i])) continue;
            capped.add_error(place_of(i, column),
                             fmt::format("{} cannot be \"{}\"", column, texts[i]), hint);
        }
        capped.finish(fmt::format("correct column {}", column));
    }

    void read_words() {
        read_choice("inner", "", [](LogRide& row, const std::string& word) {
            row.inner = name_inner(word);
            return true;
        });
        read_choice("setup", "", [](LogRide& row, const std::string& word) {
            row.setup = word;
            return true;
        });
        read_choice("tyre", "", [](LogRide& row, const std::string& word) {
            row.tyre = word;
            return true;
        });
        read_choice("surface", "write smooth, ordinary, coarse or cobbles",
                    [](LogRide& row, const std::string& word) {
                        const auto found =
                            std::find(kSurfaceWords.begin(), kSurfaceWords.end(),
                                      input::to_lower(word));
                        row.surface =
                            static_cast<physics::Surface>(found - kSurfaceWords.begin());
                        return found != kSurfaceWords.end();
                    });
        read_choice("wet", "write yes or no (empty: no)",
                    [](LogRide& row, const std::string& word) {
                        const auto wet = read_wet(word);
                        row.wet = wet.value_or(false);
                        return wet.has_value();
                    });
        read_choice("kind", "write training or race (empty: training)",
                    [](LogRide& row, const std::string& word) {
                        const std::string lower = input::to_lower(word);
                        row.race = lower == "race";
                        return row.race || lower == "training";
                    });
    }

    void read_counts() {
        auto distance = table_.read_column("distance", Dimension::kLength,
                                           Need::kRequired, problems_);
        auto flats =
            table_.read_column("flats", Dimension::kNumber, Need::kRequired, problems_);
        auto rides =
            table_.read_column("rides", Dimension::kNumber, Need::kOptional, problems_);
        distance.resize(rows_.size());
        flats.resize(rows_.size());
        rides.resize(rows_.size());
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            rows_[i].distance_m = distance[i].value_or(1.0);
            rows_[i].flats = take_count(i, "flats", flats[i].value_or(0.0), 0);
            rows_[i].rides = take_count(i, "rides", rides[i].value_or(1.0), 1);
        }
    }

    int take_count(std::size_t row, const char* column, double value, int least) {
        const bool whole = value == std::floor(value);
        if (whole && value >= least && value <= kMostRides)
            return static_cast<int>(value);
        problems_.add_error(place_of(row, column),
                            fmt::format("{} is {:g}, {}", column, value,
                                        !whole          ? "not a whole number"
                                        : value < least ? fmt::format("below {}", least)
                                                        : "too many for one row"),
                            "count them: 0, 1, 2 ...");
        return least;
    }

    // Minutes in the header's unit, or with their own in the cell.
    void read_repairs() {
        const auto texts = read_texts("repair", Need::kOptional);
        const auto index = table_.find_column("repair");
        if (!index) return;
        const std::string unit = table_.columns[*index].unit;
        CappedProblems capped(problems_);
        for (std::size_t i = 0; i < texts.size(); ++i) {
            std::string_view rest = texts[i];
            while (!rest.empty()) {
                const std::size_t plus = rest.find('+');
                std::string piece(input::trim(rest.substr(0, plus)));
                rest = plus == rest.npos ? std::string_view() : rest.substr(plus + 1);
                add_repair(i, std::move(piece), unit, capped);
            }
        }
        capped.finish("correct column repair");
    }

    void add_repair(std::size_t row, std::string piece, const std::string& unit,
                    CappedProblems& capped) {
        if (table_.delimiter != ',') std::replace(piece.begin(), piece.end(), ',', '.');
        const bool bare = static_cast<bool>(input::parse_number(piece));
        const auto time = bare && !unit.empty()
                              ? input::parse_quantity_in(piece, unit, Dimension::kTime)
                              : input::parse_quantity(piece, Dimension::kTime);
        const Place place = place_of(row, "repair");
        if (!time) {
            const auto& refusal = time.refusal();
            capped.add_error(place, "repair: " + refusal.what,
                             "head the column repair_min and write 7, or 7 + 12 for two");
            return;
        }
        if (*time < kShortestRepair_s || *time > kLongestRepair_s) {
            capped.add_error(place, fmt::format("repair took {:g} min", *time / 60.0),
                             "write 0.5 to 240 minutes, or leave the cell empty");
            return;
        }
        rows_[row].repairs_s.push_back(*time);
    }

    void check_rows() {
        CappedProblems capped(problems_);
        for (std::size_t i = 0; i < rows_.size(); ++i) check_row(i, capped);
        capped.finish("correct these rows");
    }

    void check_row(std::size_t i, CappedProblems& capped) {
        const LogRide& row = rows_[i];
        const Place at = place_of(i, "distance");
        if (row.distance_m < 0.0) {
            capped.add_error(at, "distance is negative", "write the length of the ride");
        } else if (row.distance_m == 0.0 && row.flats > 0) {
            capped.add_error(at,
                             fmt::format("{} on a ride of 0 km", count_flats(row.flats)),
                             "write the distance, or take a flat at home out");
        } else if (row.distance_m == 0.0) {
            problems_.add_warning(at, "a ride of 0 km is left out", "take the row out");
        } else if (row.distance_m > kLongestRide_m * row.rides) {
            capped.add_error(at,
                             fmt::format("a ride of {:.0f} km", row.distance_m / 1000.0),
                             "check the unit, or add a column rides to sum several");
        }
        if (row.flats > kMostFlats * row.rides) {
            capped.add_error(place_of(i, "flats"),
                             fmt::format("{} flats on one ride", row.flats),
                             "count the flats of this ride alone");
        }
        if (static_cast<int>(row.repairs_s.size()) <= row.flats) return;
        capped.add_error(place_of(i, "repair"),
                         row.flats == 0
                             ? std::string("a repair time on a ride without a flat")
                             : fmt::format("{} repair times for {}", row.repairs_s.size(),
                                           count_flats(row.flats)),
                         "write flats = 1, or take the time out");
    }

    void warn_of_unnamed_inners() {
        const auto is_unnamed = [](const LogRide& row) { return row.inner.empty(); };
        const auto unnamed = std::count_if(rows_.begin(), rows_.end(), is_unnamed);
        if (unnamed == 0) return;
        const auto first = std::find_if(rows_.begin(), rows_.end(), is_unnamed);
        problems_.add_warning(
            place_of(static_cast<std::size_t>(first - rows_.begin()), "inner"),
            unnamed == 1 ? std::string("1 row names no inner and is taken as butyl")
                         : fmt::format("{} rows name no inner and are taken as butyl, "
                                       "this one first",
                                       unnamed),
            "fill the column inner");
    }

    void warn_of_twins() {
        std::set<std::tuple<std::chrono::sys_days, double, int, std::string, std::string>>
            seen;
        for (const LogRide& row : rows_) {
            if (row.distance_m <= 0.0 || row.flats == 0) continue;
            const auto key = std::tuple(std::chrono::sys_days(row.day), row.distance_m,
                                        row.flats, row.setup, row.inner);
            if (seen.insert(key).second) continue;
            problems_.add_warning(
                row.place, "the same day, distance and flats stand in a row above",
                "take one out if it is the same ride; both are counted");
        }
    }

    const CsvTable& table_;
    base::ProblemList& problems_;
    std::vector<LogRide> rows_;
};

}  // namespace

LogRides read_log_rows(const CsvTable& table, base::ProblemList& problems) {
    return LogReader(table, problems).read();
}

}  // namespace flattail::evidence

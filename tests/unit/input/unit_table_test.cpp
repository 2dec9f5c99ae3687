#include "input/units/unit_table.h"

#include <udunits2.h>

#include <cmath>
#include <map>
#include <memory>

#include "support/catch.h"

using namespace flattail::input;

namespace {

const char* find_si_unit(Dimension dimension) {
    switch (dimension) {
        case Dimension::kMass:
            return "kg";
        case Dimension::kLength:
            return "m";
        case Dimension::kTime:
            return "s";
        case Dimension::kSpeed:
            return "m/s";
        case Dimension::kPower:
            return "W";
        case Dimension::kPressure:
            return "Pa";
        case Dimension::kTemperature:
        case Dimension::kTemperatureDifference:
            return "K";
        case Dimension::kDirection:
        case Dimension::kAngle:
            return "radian";
        case Dimension::kArea:
            return "m2";
        case Dimension::kVolume:
            return "m3";
        case Dimension::kAcceleration:
            return "m/s2";
        case Dimension::kInertia:
            return "kg.m2";
        default:
            return "1";
    }
}

// UDUNITS reads some of our spellings as other units: mph as milliphot, kn as kilonewton,
// oz as a volume, C as coulomb, F as farad. Its own ounce is cut to seven digits.
std::string spell_for_udunits(const Unit& unit) {
    static const std::map<std::string_view, std::string> kSpellings = {
        {"mph", "mile/hour"}, {"kn", "knot"},     {"oz", "0.0625 avoirdupois_pound"},
        {"mi", "mile"},       {"C", "degC"},      {"F", "degF"},
        {"week", "7 days"},   {"kg m2", "kg.m2"}, {"deg", "degree"},
    };
    const auto it = kSpellings.find(unit.spelling);
    std::string text = it == kSpellings.end() ? std::string(unit.spelling) : it->second;
    // As a difference the scale counts and the zero does not.
    if (unit.dimension == Dimension::kTemperatureDifference && text == "degC") return "K";
    if (unit.dimension == Dimension::kTemperatureDifference && text == "degF") {
        return "0.55555555555555555556 K";
    }
    return text;
}

using UnitPointer = std::unique_ptr<ut_unit, void (*)(ut_unit*)>;

class Oracle {
  public:
    Oracle() : system_((ut_set_error_message_handler(ut_ignore), ut_read_xml(nullptr))) {}
    ~Oracle() { ut_free_system(system_); }
    Oracle(const Oracle&) = delete;
    Oracle& operator=(const Oracle&) = delete;

    double convert(double value, const std::string& from, const std::string& to) const {
        const UnitPointer a(ut_parse(system_, from.c_str(), UT_UTF8), ut_free);
        const UnitPointer b(ut_parse(system_, to.c_str(), UT_UTF8), ut_free);
        REQUIRE(a != nullptr);
        REQUIRE(b != nullptr);
        REQUIRE(ut_are_convertible(a.get(), b.get()) != 0);
        const std::unique_ptr<cv_converter, void (*)(cv_converter*)> converter(
            ut_get_converter(a.get(), b.get()), cv_free);
        return cv_convert_double(converter.get(), value);
    }

  private:
    ut_system* system_;
};

double apply(const Unit& unit, double value) {
    return (value + unit.offset) * unit.factor;
}

bool agrees(const Unit& unit, const Oracle& oracle) {
    // UDUNITS takes the tropical year for its month, we the Gregorian one.
    const double tolerance = unit.spelling == "month" ? 1e-5 : 1e-13;
    for (const double value : {1.0, 37.5}) {
        const double expected =
            oracle.convert(value, spell_for_udunits(unit), find_si_unit(unit.dimension));
        if (std::abs(apply(unit, value) - expected) > tolerance * std::abs(expected)) {
            return false;
        }
    }
    return true;
}

}  // namespace

TEST_CASE("every unit agrees with UDUNITS-2") {
    const Oracle oracle;
    for (const Unit& unit : list_units()) {
        CAPTURE(unit.spelling);
        CHECK(agrees(unit, oracle));
    }
}

TEST_CASE("a unit that is off by one part in a million would be noticed") {
    const Oracle oracle;
    for (Unit unit : list_units()) {
        if (unit.spelling == "month") continue;
        unit.factor *= 1 + 1e-6;
        CAPTURE(unit.spelling);
        CHECK_FALSE(agrees(unit, oracle));
    }
}

TEST_CASE("factors agree with the printed tables of NIST SP 811 (2008), appendix B.8") {
    struct Row {
        const char* text;
        Dimension dimension;
        double printed;
    };
    // The tables print seven digits; exact factors stand there in bold.
    const Row rows[] = {
        {"1 lb", Dimension::kMass, 4.535924e-01},
        {"1 oz", Dimension::kMass, 2.834952e-02},
        {"1 ft", Dimension::kLength, 3.048e-01},
        {"1 inch", Dimension::kLength, 2.54e-02},
        {"1 mi", Dimension::kLength, 1.609344e3},
        {"1 psi", Dimension::kPressure, 6.894757e3},
        {"1 bar", Dimension::kPressure, 1.0e5},
        {"1 mph", Dimension::kSpeed, 4.4704e-01},
        {"1 kn", Dimension::kSpeed, 5.144444e-01},
        {"1 km/h", Dimension::kSpeed, 2.777778e-01},
        {"1 deg", Dimension::kAngle, 1.745329e-02},
        {"32 F", Dimension::kTemperature, 273.15},
        {"212 F", Dimension::kTemperature, 373.15},
    };
    for (const Row& row : rows) {
        CAPTURE(row.text);
        CHECK(*parse_quantity(row.text, row.dimension) ==
              Approx(row.printed).epsilon(2e-7));
    }
}

TEST_CASE("aliases are understood and never suggested") {
    CHECK(find_unit_of("in", Dimension::kLength) ==
          find_unit_of("inch", Dimension::kLength));
    CHECK(find_unit_of("\u00B0C", Dimension::kTemperature) != nullptr);
    CHECK(list_spellings(Dimension::kLength) == "m, km, cm, mm, mi, ft or inch");
    CHECK(list_spellings(Dimension::kTemperature) == "C, F or K");
}

TEST_CASE("a spelling is unique within its dimension") {
    std::map<std::pair<Dimension, std::string_view>, int> seen;
    for (const Unit& unit : list_units()) ++seen[{unit.dimension, unit.spelling}];
    for (const auto& [unit, count] : seen) {
        CAPTURE(unit.second);
        CHECK(count == 1);
    }
}

TEST_CASE("corrections lead to units of the wanted dimension only") {
    CHECK(correct_unit("KG", Dimension::kMass) == "kg");
    CHECK(correct_unit("kph", Dimension::kSpeed) == "km/h");
    CHECK(correct_unit("mpg", Dimension::kSpeed).empty());
    CHECK(correct_unit("m", Dimension::kTime) == "min");
    CHECK(correct_unit("m", Dimension::kMass).empty());
}

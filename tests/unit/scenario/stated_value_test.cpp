#include "scenario/values/stated_value.h"

#include "chance/distribution.h"
#include "scenario/values/defaults.h"
#include "scenario/values/table.h"
#include "support/catch.h"

using namespace flattail;
using namespace flattail::scenario;

namespace {

const Spec kLength{"test.length",
                   "length",
                   input::Dimension::kLength,
                   kMetre,
                   Scale::kPositive,
                   Layer::kKnowledge,
                   0,
                   1000,
                   "write a length"};
const Spec kShare{"test.share",
                  "share",
                  input::Dimension::kRatio,
                  kPercent,
                  Scale::kChance,
                  Layer::kKnowledge,
                  0,
                  100,
                  "write a share"};
const Spec kStep{"test.step", "step",         input::Dimension::kLength,
                 kMetre,      Scale::kSigned, Layer::kKnowledge,
                 -1000,       1000,           "write a step"};

Spec as_luck(Spec spec) {
    spec.layer = Layer::kLuck;
    return spec;
}

std::optional<StatedValue> read(const std::string& text, const Spec& spec) {
    base::ProblemList problems;
    const input::Document document =
        input::read_toml_text("value = " + text, "test.toml", problems);
    return read_stated_value(document.root.items.at(0), spec, problems);
}

Summary summarise_text(const std::string& text, const Spec& spec) {
    const auto value = read(text, spec);
    REQUIRE(value);
    return summarise(value->knowledge, value->luck, value->deviation);
}

void check_range(const Summary& summary, double low, double mid, double high) {
    CHECK(summary.low == Approx(low).epsilon(1e-5));
    CHECK(summary.mid == Approx(mid).epsilon(1e-5));
    CHECK(summary.high == Approx(high).epsilon(1e-5));
}

}  // namespace

TEST_CASE("a plain quantity is one certain value") {
    const auto value = read("\"12 m\"", kLength);
    REQUIRE(value);
    CHECK(value->knowledge.shape == Shape::kPoint);
    CHECK(value->knowledge.a == 12.0);
    CHECK(value->deviation == Deviation::kNone);
}

TEST_CASE("nine values in ten lie in a stated range, in either layer") {
    for (const Spec& spec : {kLength, as_luck(kLength)}) {
        // The middle of a lognormal range is the geometric mean.
        check_range(summarise_text(R"({ low = "320 m", high = "500 m" })", spec), 320,
                    400, 500);
        check_range(
            summarise_text(R"({ low = "320 m", mid = "350 m", high = "500 m" })", spec),
            320, 350, 500);
        for (const char* shape : {"normal", "uniform"}) {
            const std::string text =
                std::string(R"({ low = "320 m", high = "500 m", shape = ")") + shape +
                "\" }";
            check_range(summarise_text(text, spec), 320, 410, 500);
        }
    }
    for (const Spec& spec : {kShare, as_luck(kShare)}) {
        const Summary share = summarise_text("{ low = 0.4, high = 0.85 }", spec);
        CHECK(share.low == Approx(0.4).epsilon(1e-5));
        CHECK(share.high == Approx(0.85).epsilon(1e-5));
    }
    for (const Spec& spec : {kStep, as_luck(kStep)}) {
        check_range(summarise_text("{ low = \"-4 m\", high = \"2 m\" }", spec), -4, -1,
                    2);
    }
}

TEST_CASE("a shape must suit its value") {
    CHECK_FALSE(read(R"({ low = "1 m", high = "2 m", shape = "lognormal" })", kStep));
    CHECK_FALSE(read(R"({ low = "0.1 m", high = "0.2 m", shape = "beta" })", kLength));
    CHECK(read(R"({ low = "1 m", high = "2 m", shape = "uniform" })", kStep));
}

TEST_CASE("a mean and an sd are those of what is drawn") {
    const auto known = read("{ mean = \"50 m\", sd = \"2 m\" }", kLength);
    REQUIRE(known);
    CHECK(chance::mean(known->knowledge) == Approx(50));
    CHECK(chance::sd(known->knowledge) == Approx(2));
    const auto lucky =
        read("{ mean = \"50 m\", sd = \"2 m\", kind = \"changes each day\" }", kLength);
    REQUIRE(lucky);
    CHECK(lucky->deviation == Deviation::kAdd);
    CHECK(lucky->knowledge.a == 50);
    CHECK(chance::sd(lucky->luck) == Approx(2));
}

TEST_CASE("two thirds lie between median / spread and median x spread") {
    const auto value = read("{ median = \"8 m\", spread = 1.5 }", as_luck(kLength));
    REQUIRE(value);
    CHECK(value->deviation == Deviation::kMultiply);
    const double inside =
        chance::cdf(value->luck, 1.5) - chance::cdf(value->luck, 1 / 1.5);
    // One standard deviation on each side of a normal: 68.27 %.
    CHECK(inside == Approx(0.682689).epsilon(1e-5));
}

TEST_CASE("what we do not know and what changes each day stand in one value") {
    const auto value = read("{ mean = { mean = \"50 m\", sd = \"3 m\" }, sd = \"4 m\" }",
                            as_luck(kLength));
    REQUIRE(value);
    CHECK(chance::sd(value->knowledge) == Approx(3));
    CHECK(chance::sd(value->luck) == Approx(4));
    const Summary summary = summarise(value->knowledge, value->luck, value->deviation);
    // The sum of two normals: sd 5, and 1.644854 of them to the 95 % point.
    CHECK(summary.high == Approx(50 + 1.644854 * 5).epsilon(0.005));
}

TEST_CASE("nothing outside the limits of a value is ever drawn") {
    const auto value = read("{ mean = \"10 m\", sd = \"6 m\" }", kLength);
    // 5 % of such a normal lie below 0.13 m, inside the limits; its far tail does not.
    REQUIRE(value);
    CHECK(chance::quantile(value->knowledge, 1e-9) >= 0.0);
    const auto lucky = read("{ mean = \"10 m\", sd = \"6 m\" }", as_luck(kLength));
    REQUIRE(lucky);
    CHECK(lucky->knowledge.a + chance::quantile(lucky->luck, 1e-9) >= 0.0);
}

TEST_CASE("a range whose ends lie outside the limits is refused") {
    CHECK_FALSE(read("{ mean = \"10 m\", sd = \"9 m\" }", kLength));
    CHECK_FALSE(read("\"1200 m\"", kLength));
}

TEST_CASE("every default of the table is sound and inside its own limits") {
    for (const Spec& spec : all_specs()) {
        CAPTURE(spec.name);
        CHECK_FALSE(spec.advice.empty());
        CHECK(spec.least < spec.most);
        if (spec.usual.form == Form::kRequired) continue;
        CHECK_FALSE(spec.usual.source.empty());
        const StatedValue value = make_usual_value(spec);
        CHECK(chance::find_fault(value.knowledge) == chance::DistributionFault::kNone);
        if (spec.name == "race.official_distance") continue;
        base::ProblemList problems;
        const Summary s = summarise(value.knowledge, value.luck, value.deviation);
        for (const double end : {s.low, s.mid, s.high}) {
            CHECK(check_limits(end, spec, {}, problems));
        }
    }
}

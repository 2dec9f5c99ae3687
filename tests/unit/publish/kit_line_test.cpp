// When the page says what to put into a pocket, and when it may not.
#include "publish/pages/kit_line.h"

#include "support/catch.h"

using namespace flattail;

namespace {

KitRow make_row() {
    KitRow row;
    row.setup = 0;
    row.item = "tube with a cartridge";
    row.carried = 1;
    row.is_added = true;
    row.weighs_kg = 0.164;
    row.finishes = {1.0 / 278.0, 0.0004};
    row.saves_s = {9.0, 1.0};
    row.costs_s = {2.1, 0.1};
    row.net_s = {6.9, 1.0};
    return row;
}

std::string tell(const KitRow& row, int advised = 0) {
    Findings findings;
    findings.kit = {row};
    return publish::describe_kit(findings, advised);
}

}  // namespace

TEST_CASE("one more thing that saves races and pays for its weight is named") {
    CHECK(tell(make_row()) ==
          "a second tube with a cartridge costs 2 s and saves the race on 1 day in 280: "
          "take it.");
    KitRow row = make_row();
    row.carried = 0;
    row.item = "boot";
    row.costs_s = {0.1, 0.01};
    CHECK(tell(row) ==
          "a boot costs less than 1 s and saves the race on 1 day in 280: take it.");
}

TEST_CASE("nothing is said of another setup, of what is carried, or within the error") {
    CHECK(tell(make_row(), 1).empty());
    KitRow carried = make_row();
    carried.is_added = false;
    CHECK(tell(carried).empty());
    KitRow unsure = make_row();
    unsure.finishes.standard_error = 0.003;
    CHECK(tell(unsure).empty());
    KitRow heavy = make_row();
    heavy.net_s = {-0.5, 0.1};
    CHECK(tell(heavy).empty());
    KitRow even = make_row();
    even.net_s = {1.0, 1.0};
    CHECK(tell(even).empty());
    KitRow rare = make_row();
    rare.finishes = {5e-5, 1e-6};
    CHECK(tell(rare).empty());
}

TEST_CASE("of several things the one that saves most time is named") {
    Findings findings;
    KitRow better = make_row();
    better.item = "boot";
    better.carried = 0;
    better.net_s = {20.0, 1.0};
    findings.kit = {make_row(), better};
    CHECK(publish::describe_kit(findings, 0).rfind("a boot ", 0) == 0);
}

#include "structure/method_rules.h"
#include "support/catch.h"

using namespace flattail::structure;

namespace {

const SourceFile kMethod{
    "METHOD.md",
    "# Method\n\n## 4. Rolling\nTwo losses.\n\n"
    "### 4.1 Pressure\nTest: `tests/unit/physics/rolling_test.cpp`.\n"};
const SourceFile kTest{"tests/unit/physics/rolling_test.cpp", ""};

Complaints cite(const std::string& comment) {
    return find_dangling_citations({kMethod, kTest, {"src/physics/rolling.h", comment}});
}

}  // namespace

TEST_CASE("every METHOD number cited in the tree is a section") {
    CHECK(join(find_dangling_citations(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("every METHOD section names tests that exist") {
    CHECK(join(find_untested_sections(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("a cited section is found by its number") {
    CHECK(cite("/// Source: METHOD 4.1 (somebody 1979, eq. 3)").empty());
    CHECK(cite("// The two losses of METHOD 4.").empty());
    CHECK(cite("// METHOD says more").empty());
    CHECK(cite("/// Source: METHOD 4.2.").size() == 1);
    const SourceFile entries{"METHOD.md",
                             "## 4 Rolling\n- (4.2) A law.\n**4.3 Another.**\n"};
    const SourceFile citing{"src/a.h", "// METHOD 4.2 and METHOD 4.3, not METHOD 4.4"};
    CHECK(find_dangling_citations({entries, citing}).size() == 1);
    CHECK(cite("/// Source: METHOD 4.11").size() == 1);
}

TEST_CASE("a section without a test, or with a missing one, is found") {
    CHECK(find_untested_sections({kMethod, kTest}).empty());
    CHECK(find_untested_sections({kMethod}).size() == 1);
    const SourceFile bare{"METHOD.md", "## 1. Air\nIt is thin up there.\n"};
    CHECK(find_untested_sections({bare}).size() == 1);
}

TEST_CASE("a missing or empty METHOD.md is found") {
    CHECK_FALSE(find_dangling_citations({kTest}).empty());
    CHECK_FALSE(find_untested_sections({kTest}).empty());
    CHECK_FALSE(find_untested_sections({{"METHOD.md", "# Method\n"}}).empty());
}

#include "structure/include_rules.h"
#include "support/catch.h"

using namespace flattail::structure;

namespace {

Complaints judge(const std::string& path, const std::string& include) {
    return find_forbidden_includes({{path, "#include " + include + "\n"}});
}

}  // namespace

TEST_CASE("every include of the tree is in the table") {
    CHECK(join(find_forbidden_includes(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("no two folders of the tree include each other") {
    CHECK(join(find_two_way_folders(read_tracked_files(FLATTAIL_SOURCE_DIR))) == "");
}

TEST_CASE("a room includes itself and rooms to its left, never to its right") {
    CHECK(judge("src/ride/a.cpp", "\"ride/b.h\"").empty());
    CHECK(judge("src/ride/a.cpp", "\"physics/b.h\"").empty());
    CHECK(judge("src/course/a.cpp", "\"input/b.h\"").empty());
    CHECK_FALSE(judge("src/physics/a.cpp", "\"ride/b.h\"").empty());
    CHECK_FALSE(judge("src/input/a.h", "\"scenario/b.h\"").empty());
    CHECK_FALSE(judge("src/ride/vector/a.cpp", "\"outcome/b.h\"").empty());
}

TEST_CASE("the program sees the public face and itself alone") {
    CHECK(judge("src/app/a.cpp", "\"flattail/study.h\"").empty());
    CHECK(judge("src/app/a.cpp", "\"app/b.h\"").empty());
    CHECK_FALSE(judge("src/app/a.cpp", "\"base/b.h\"").empty());
}

TEST_CASE("a public header sees standard headers and its neighbours alone") {
    CHECK(judge("include/flattail/a.h", "<vector>").empty());
    CHECK(judge("include/flattail/a.h", "\"flattail/b.h\"").empty());
    CHECK_FALSE(judge("include/flattail/a.h", "<boost/math/a.hpp>").empty());
    CHECK_FALSE(judge("include/flattail/a.h", "<Eigen/Dense>").empty());
    CHECK_FALSE(judge("include/flattail/a.h", "\"base/b.h\"").empty());
}

TEST_CASE("packages, streams and clocks stay in their rooms") {
    CHECK(judge("src/study/a.cpp", "<tbb/parallel_for.h>").empty());
    CHECK(judge("src/app/a.cpp", "<iostream>").empty());
    CHECK_FALSE(judge("src/ride/a.cpp", "<tbb/parallel_for.h>").empty());
    CHECK_FALSE(judge("src/study/a.cpp", "<iostream>").empty());
    CHECK_FALSE(judge("src/study/a.cpp", "<chrono>").empty());
    CHECK_FALSE(judge("src/ride/a.cpp", "<nowhere/unknown.h>").empty());
    CHECK_FALSE(judge("src/gadgets/a.cpp", "<vector>").empty());
}

TEST_CASE("a second file with threads is one too many") {
    const std::string text = "#include <tbb/parallel_for.h>\n";
    CHECK(find_forbidden_includes({{"src/study/a.cpp", text}}).empty());
    CHECK_FALSE(
        find_forbidden_includes({{"src/study/a.cpp", text}, {"src/study/b.cpp", text}})
            .empty());
}

TEST_CASE("two folders that include each other are found") {
    const SourceFile room{"src/ride/a.cpp", "#include \"ride/vector/b.h\"\n"};
    const SourceFile lanes{"src/ride/vector/b.cpp", "#include \"ride/c.h\"\n"};
    CHECK(find_two_way_folders({room}).empty());
    CHECK(find_two_way_folders({room, lanes}).size() == 1);
}

// Every loop over lanes of the kernel became vector code: in the compiled AVX2 variant no
// square root is taken of a single number, and many are taken of four at once.
#if !defined(FLATTAIL_OTHER_CODE) && !defined(__clang__)

#include <array>
#include <cstdio>
#include <memory>
#include <string>

#include "support/catch.h"

namespace {

std::string disassemble(const std::string& object) {
    const std::string command =
        "objdump -d --no-show-raw-insn '" + object + "' 2>/dev/null";
    const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
    REQUIRE(pipe != nullptr);
    std::string text;
    std::array<char, 65536> part;
    while (std::fgets(part.data(), static_cast<int>(part.size()), pipe.get()) !=
           nullptr) {
        text += part.data();
    }
    return text;
}

int count(const std::string& text, const std::string& word) {
    int found = 0;
    for (std::size_t at = text.find(word); at != std::string::npos;
         at = text.find(word, at + word.size())) {
        ++found;
    }
    return found;
}

// The object of one source among those of the AVX2 variant, separated by colons.
std::string find_object(const std::string& source) {
    const std::string all = FLATTAIL_RIDE_V3_OBJECTS;
    const std::size_t at = all.find(source);
    REQUIRE(at != std::string::npos);
    const std::size_t begin = all.rfind(':', at) + 1;  // npos + 1 is the beginning
    return all.substr(begin, all.find(':', at) - begin);
}

}  // namespace

TEST_CASE("every loop of the kernel takes its square roots four at a time") {
    const std::string code = disassemble(find_object("kernel.cpp"));
    if (code.empty()) {
        WARN("objdump is missing: not looked at");
        return;
    }
    CHECK(count(code, "vsqrtsd") == 0);
    // The fast and the simple step, the settling of each, the converged root, the
    // push-off.
    CHECK(count(code, "vsqrtpd") >= 6);
}

TEST_CASE("the marks divide four lanes at a time") {
    const std::string code = disassemble(find_object("refresh.cpp"));
    if (code.empty()) return;
    CHECK(count(code, "vdivpd") >= 6);
}

#endif

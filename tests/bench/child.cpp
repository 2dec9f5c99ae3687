#include "bench/child.h"

#include <stdio.h>

#include <stdexcept>

namespace flattail::bench {

std::string read_output(const std::string& command) {
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) throw std::runtime_error("could not start " + command);
    std::string text;
    char part[256];
    while (fgets(part, sizeof part, pipe) != nullptr) text += part;
    return pclose(pipe) == 0 ? text : "";
}

}  // namespace flattail::bench

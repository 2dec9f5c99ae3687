#include "bench/shipped.h"

#include <fmt/format.h>

#include <memory>

#include "scenario/model.h"

namespace flattail::bench {

namespace {

constexpr double kSofterPa = 1e4;

std::string find_file(const std::string& path) {
    return std::string(FLATTAIL_SOURCE_DIR) + "/" + path;
}

}  // namespace

Scenario read_shipped(const std::string& name, const std::vector<std::string>& settings) {
    return read_scenario({find_file("scenarios/" + name + "/scenario.toml"), settings});
}

Scenario read_exact_flats() {
    return read_scenario({find_file("tests/support/scenarios/exact_flats.toml"), {}});
}

Scenario with_setups(const Scenario& scenario, std::size_t count) {
    auto model = std::make_shared<scenario::Model>(scenario.model());
    const std::vector<scenario::Setup> own = model->setups;
    model->setups.clear();
    for (std::size_t s = 0; s < count; ++s) {
        scenario::Setup setup = own[s % own.size()];
        const std::size_t round = s / own.size();
        for (auto& wheel : setup.wheels) {
            wheel.gauge_pa -= kSofterPa * static_cast<double>(round);
        }
        if (round > 0) setup.name = fmt::format("{} {}", setup.name, round);
        model->setups.push_back(setup);
    }
    return Scenario(model);
}

StudyOptions make_options(std::int64_t races, std::uint64_t seed) {
    StudyOptions options;
    options.races = races;
    options.seed = seed;
    options.threads = 1;
    return options;
}

}  // namespace flattail::bench

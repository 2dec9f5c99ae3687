#include "unit/publish/invented_findings.h"

#include <cmath>
#include <limits>

namespace flattail::test {

namespace {

constexpr double kNoFinish = std::numeric_limits<double>::infinity();

// Times of a made-up bell of 2:36 +- 4 minutes, moved for each setup; the last 1 in 200
// days have no finish.
double invent_time(double percent, double shift_s) {
    if (percent > 99.5) return kNoFinish;
    const double odds = percent / (100.0 - percent);
    return 9380.0 + shift_s + 140.0 * std::log(odds);
}

SetupFindings invent_setup(const std::string& name, int index, std::size_t goals) {
    SetupFindings setup;
    const double shift_s = -78.0 * index;
    const double step = 0.001 * index;
    setup.name = name;
    for (const double percent :
         {0.1, 1.0, 5.0, 10.0, 25.0, 50.0, 75.0, 90.0, 95.0, 99.0, 99.9}) {
        const double time_s = invent_time(percent, shift_s);
        setup.percentiles.push_back({percent, time_s, {time_s - 1.25, time_s + 1.5}});
    }
    setup.typical_s = invent_time(50.0, shift_s);
    setup.nine_in_ten_s = {invent_time(5.0, shift_s), invent_time(95.0, shift_s)};
    for (std::size_t goal = 0; goal < goals; ++goal) {
        setup.goals.push_back(
            {0.36 + 0.14 * (index % 3) + 0.1 * static_cast<double>(goal), 0.0011});
    }
    setup.mean_judged_s = {9421.5 + shift_s, 0.8};
    setup.sd_judged_s = {312.25 + index, 1.5};
    setup.worst_days = {{0.1, {10180.5 + shift_s, 6.5}}, {0.05, {10555.25 + shift_s, 9}}};
    setup.flat = {0.040 + 7 * step, 0.0004};
    setup.two_flats = {0.0009 + step, 0.00005};
    setup.front_flat = {0.0131 + step, 0.0002};
    setup.flats_per_race = {0.0413 + step, 0.00045};
    setup.flat_at_speed = {0.0042 + step, 0.00015};
    setup.front_flat_at_speed = {0.0014 + step, 0.00007};
    setup.lose_long = {0.037 + 7 * step, 0.00035};
    setup.no_finish = {0.0033 + step, 0.0001};
    setup.over_cutoff = {0.0, 0.0};
    setup.no_finish_causes = {{"repair failed", {0.0011, 0.00006}},
                              {"no spare left", {0.0022 + step, 0.00008}}};
    setup.flat_costs_s = 521.0 + index;
    setup.flat_costs_often_s = 1030.0 + index;
    for (int i = 0; i < 1000; ++i) {
        setup.quantiles_s.push_back(invent_time((i + 0.5) / 10.0, shift_s));
    }
    return setup;
}

PairFindings invent_pair(int setup) {
    PairFindings pair;
    pair.setup = setup;
    pair.mean_s = {-73.2, 0.6};
    pair.percentiles = {{5.0, -310.5, {-314.0, -307.25}}, {95.0, 41.5, {39.75, 43.0}}};
    pair.median_s = {-79.4, 0.3};
    pair.faster = {0.912, 0.0009};
    pair.ties = {0.0004, 0.00002};
    pair.both_finish = {0.993, 0.0002};
    pair.only_setup_finishes = {0.0029, 0.0001};
    pair.only_against_finishes = {0.0036, 0.00012};
    pair.neither_finishes = {0.0005, 0.00003};
    pair.p95_difference_s = {-64.5, 4.25};
    pair.mean_independent_s = {-72.9, 1.7};
    pair.faster_independent = {0.889, 0.001};
    pair.could_be_s = {-130.0, -45.0};
    pair.knowledge_sd_s = 26.5;
    pair.luck_sd_s = 118.0;
    return pair;
}

HistogramFindings invent_histogram(std::size_t setups) {
    HistogramFindings histogram;
    for (int i = 0; i < 9; ++i) histogram.edges_s.push_back(8940.0 + 120.0 * i);
    for (std::size_t setup = 0; setup < setups; ++setup) {
        histogram.shares.push_back(
            {0.02, 0.05, 0.11, 0.18, 0.21, 0.19, 0.12, 0.06, 0.0, 0.06});
        histogram.standard_errors.emplace_back(
            10, 0.001 + 0.0005 * static_cast<double>(setup));
    }
    return histogram;
}

StudyFacts invent_facts() {
    StudyFacts facts;
    facts.version = "9.8.7";
    facts.scenario_file = "three-herons.toml";
    facts.race_name = "Three Herons Middle, bike leg";
    facts.rider_name = "Tamsin Orrelwick";
    facts.date = "2026-06-14";
    facts.invented = true;
    facts.start_clock_s = 8 * 3600 + 5 * 60;
    facts.course_length_m = 88400.0;
    facts.course_ascent_m = 423.0;
    facts.rider_mass_kg = 70.0;
    facts.rider_power_w = 200.0;
    facts.fingerprint = "0123456789abcdef";
    facts.check_code = "7f3a-21c0";
    facts.seed = 18446744073709551615u;
    facts.races = 100000;
    facts.effective_races = 93211.5;
    facts.segments = 6012;
    return facts;
}

}  // namespace

Findings invent_findings() { return invent_findings({"Butyl (on now)", "Latex"}); }

Findings invent_findings(const std::vector<std::string>& names) {
    Findings findings;
    findings.facts = invent_facts();
    findings.goals_s = {9300.0};
    findings.judged_no_finish_s = 12980.0;
    findings.judged_rule = "typical finish of Butyl (on now) + 1 h";
    for (std::size_t i = 0; i < names.size(); ++i) {
        const int index = static_cast<int>(i);
        findings.setups.push_back(invent_setup(names[i], index, 1));
        if (index != findings.against) findings.pairs.push_back(invent_pair(index));
    }
    findings.histogram = invent_histogram(names.size());
    findings.verdict.choice = names.size() > 1 ? 1 : 0;
    findings.verdict.certainty = Certainty::kFirm;
    findings.verdict.share_agreeing = 0.983;
    findings.verdict.rule = "average time";
    findings.accuracy = {2000, 3.5e-9, 0.0012, 0};
    findings.cautions = {"rim pressure limit not given: it was not checked"};
    return findings;
}

std::vector<std::string> split_lines(const std::string& text) {
    std::vector<std::string> lines;
    std::size_t from = 0;
    while (from < text.size()) {
        const std::size_t end = text.find('\n', from);
        lines.push_back(text.substr(from, end - from));
        from = end == std::string::npos ? text.size() : end + 1;
    }
    return lines;
}

}  // namespace flattail::test

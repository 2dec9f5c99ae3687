// From the files of a user to a validated model.
#include "scenario/tables/read_scenario.h"

#include <algorithm>
#include <filesystem>
#include <tuple>

#include "flattail/scenario.h"
#include "input/toml/document.h"
#include "scenario/fingerprint.h"
#include "scenario/logs/logged_rides.h"
#include "scenario/logs/take_evidence.h"
#include "scenario/rider/settle_rider.h"
#include "scenario/setups/parts.h"
#include "scenario/setups/read_setups.h"
#include "scenario/tables/read_tables.h"
#include "scenario/tested/tested_products.h"

namespace flattail {

namespace {

using namespace scenario;

// A copied setup tells the problem of its original again; once is enough. Problems come
// in the order of the file.
std::vector<Problem> tidy(std::vector<Problem> problems) {
    const auto key = [](const Problem& p) {
        return std::tie(p.place.file, p.place.line, p.place.column, p.what, p.hint);
    };
    std::stable_sort(problems.begin(), problems.end(),
                     [&](const Problem& a, const Problem& b) { return key(a) < key(b); });
    const auto last =
        std::unique(problems.begin(), problems.end(),
                    [&](const Problem& a, const Problem& b) { return key(a) == key(b); });
    problems.erase(last, problems.end());
    return problems;
}

void throw_if_wrong(const base::ProblemList& problems) {
    if (!problems.has_errors()) return;
    std::vector<Problem> errors;
    for (const Problem& problem : problems.all()) {
        if (problem.severity == Severity::kError) errors.push_back(problem);
    }
    throw InvalidInput(tidy(std::move(errors)));
}

void keep_warnings(Draft& draft) {
    std::vector<Problem>& warnings = draft.model.warnings;
    for (const Problem& problem : draft.problems.all()) {
        if (problem.severity == Severity::kWarning) warnings.push_back(problem);
    }
    warnings = tidy(std::move(warnings));
}

void read_all_tables(Draft& draft, const input::Node& root_node) {
    Table root(&root_node, "", draft.problems);
    Table race = root.find_table("race");
    Table rider = root.find_table("rider");
    Table weather = root.find_table("weather");
    Table road = root.find_table("road");
    Table flats = root.find_table("flats");
    Table repair = root.find_table("repair");
    Table preparation = root.find_table("preparation");
    Table decision = root.find_table("decision");
    read_race(draft, race);
    read_course(draft, race, road);
    check_times(draft, race);
    const RiderStatement said = read_rider(draft, rider);
    read_repair(draft, rider, repair);
    read_preparation(draft, preparation);
    read_weather(draft, weather);
    read_road(draft, road);
    read_flats(draft, flats);
    Table evidence = root.find_table("evidence");
    evidence.find_text("flats");  // taken before: its values stand in the document
    const TestedProducts tested(evidence.find("rolling"), draft.problems);
    Parts parts(root.find("tyre"), root.find("inner"), tested, draft.problems);
    const double fitting_ratio = read_fitting_ratio(draft, preparation);
    read_setups(
        draft,
        {root.find("setup"), root.find("kit"), root.find("rim"), root.find("owned")},
        parts, fitting_ratio);
    read_cuts_by_inner(draft, flats, parts);
    compare_with_log(draft, flats);
    read_mending(draft, repair);
    read_decision(draft, decision, parts);
    tested.finish(draft);
    const input::Node* correlated = root.find("correlated");
    for (Table* table : {&race, &rider, &weather, &road, &flats, &repair, &preparation,
                         &decision, &evidence, &root}) {
        table->reject_unknown_keys();
    }
    if (!draft.problems.has_errors()) settle_rider(draft, said.ride, said.drag);
    read_correlated(draft, correlated);
    check_sample_rows(draft);
}

std::string name_by_file(const std::string& path) {
    return std::filesystem::path(path).stem().string();
}

// Reads a document that has been checked for its form, settings applied.
Scenario build_scenario(Draft draft, input::Document document,
                        const std::vector<std::string>& settings) {
    throw_if_wrong(draft.problems);
    for (const std::string& setting : settings) {
        input::set_value(document, setting, draft.problems);
    }
    throw_if_wrong(draft.problems);
    take_evidence(document, draft.problems);
    throw_if_wrong(draft.problems);
    read_all_tables(draft, document.root);
    throw_if_wrong(draft.problems);
    keep_warnings(draft);
    if (draft.model.race.name.empty()) {
        draft.model.race.name = name_by_file(draft.model.file);
    }
    draft.model.fingerprint = make_fingerprint(draft.model);
    return Scenario(std::make_shared<const Model>(std::move(draft.model)));
}

}  // namespace

Scenario read_scenario(const ScenarioSource& source) {
    if (source.text) {
        return scenario::read_scenario_text(*source.text, source.path, source.settings);
    }
    Draft draft;
    draft.model.file = source.path;
    input::Document document = input::read_toml(source.path, draft.problems);
    return build_scenario(std::move(draft), std::move(document), source.settings);
}

Scenario scenario::read_scenario_text(std::string text, const std::string& name,
                                      const std::vector<std::string>& settings) {
    Draft draft;
    draft.model.file = name;
    input::Document document =
        input::read_toml_text(std::move(text), name, draft.problems);
    return build_scenario(std::move(draft), std::move(document), settings);
}

}  // namespace flattail

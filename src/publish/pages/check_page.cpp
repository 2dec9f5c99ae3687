#include "publish/pages/check_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "publish/pages/page.h"
#include "publish/pages/text.h"
#include "publish/pages/value_list.h"
#include "publish/words.h"
#include "scenario/model.h"

namespace flattail::publish {

namespace {

using Lines = std::vector<std::string>;

Lines lay_setups(const std::vector<SetupLine>& setups, const PageOptions& options) {
    Lines lines{paint("SETUPS", Ink::kStrong, options.colour)};
    for (const SetupLine& setup : setups) {
        for (const std::string& line :
             wrap(clean_line(setup.name), options.width, "  ")) {
            lines.push_back(paint(line, Ink::kStrong, options.colour));
        }
        const auto append = [&](const std::string& text, const std::string& head) {
            if (text.empty()) return;
            const Lines wrapped = wrap(clean_line(text), options.width, head);
            lines.insert(lines.end(), wrapped.begin(), wrapped.end());
        };
        append(setup.wheels, "    ");
        append(setup.kit, "    kit: ");
        for (const std::string& caution : setup.cautions) append(caution, "    CAUTION ");
    }
    return lines;
}

Lines lay_list(const char* heading, const Lines& items, Ink ink,
               const PageOptions& options) {
    if (items.empty()) return {};
    Lines lines{paint(heading, Ink::kStrong, options.colour)};
    for (const std::string& item : items) {
        for (const std::string& line : wrap(clean_line(item), options.width, "  - ")) {
            lines.push_back(paint(line, ink, options.colour));
        }
    }
    return lines;
}

bool carries_cartridge(const scenario::Setup& setup) {
    return setup.kit.inflations() > 0 && !setup.kit.has_pump();
}

bool has_sealant(const scenario::Setup& setup, const scenario::Model& model) {
    return std::any_of(
        setup.wheels.begin(), setup.wheels.end(), [&](const scenario::Wheel& wheel) {
            const auto inner = static_cast<std::size_t>(wheel.inner);
            return model.inners[inner].kind == scenario::InnerKind::kSealant;
        });
}

// Tyres that some setup rides, each once, in the order of the scenario.
std::vector<const scenario::Tyre*> list_tyres(const scenario::Model& model) {
    std::vector<const scenario::Tyre*> ridden;
    for (std::size_t i = 0; i < model.tyres.size(); ++i) {
        const bool is_ridden = std::any_of(
            model.setups.begin(), model.setups.end(), [i](const scenario::Setup& setup) {
                return std::any_of(setup.wheels.begin(), setup.wheels.end(),
                                   [i](const scenario::Wheel& wheel) {
                                       return wheel.tyre == static_cast<int>(i);
                                   });
            });
        if (is_ridden) ridden.push_back(&model.tyres[i]);
    }
    return ridden;
}

std::string describe_limit(const scenario::Tyre& tyre) {
    if (!tyre.most_pa) {
        return tyre.name +
               ": no pressure limit given, so none was checked. Stay at or "
               "below the lower of the tyre's and the rim's marking.";
    }
    std::string text =
        tyre.name + ": at most " + format_pressure(*tyre.most_pa) + " as given";
    if (tyre.least_pa) text += ", at least " + format_pressure(*tyre.least_pa);
    return text + ". The rim's marking counts too: the lower one holds.";
}

CheckFacts gather_facts(const Scenario& scenario,
                        const std::vector<ValueWeight>& weights) {
    const scenario::Model& model = scenario.model();
    const auto against = static_cast<std::size_t>(model.decision.against);
    return {scenario.name(),
            scenario.fingerprint(),
            scenario.setup_lines(),
            scenario.warnings(),
            scenario.used_values(),
            list_safety(model),
            weights,
            model.setups[against].name};
}

}  // namespace

std::vector<std::string> list_safety(const scenario::Model& model) {
    // Limits: 16 CFR 1512.10 and the makers' markings; the rest is common practice.
    Lines safety;
    for (const scenario::Tyre* tyre : list_tyres(model)) {
        safety.push_back(describe_limit(*tyre));
    }
    const auto any_setup = [&model](auto holds) {
        return std::any_of(model.setups.begin(), model.setups.end(), holds);
    };
    const bool has_cartridge = any_setup(carries_cartridge);
    if (has_cartridge) {
        safety.push_back(
            "A cartridge is a pressure vessel and freezes skin: hold it with a glove, "
            "aim it away from faces, keep it out of the sun.");
    }
    if (has_cartridge && any_setup([&model](const scenario::Setup& setup) {
            return has_sealant(setup, model);
        })) {
        safety.push_back(
            "Some sealants clot when a cartridge's cold gas meets them: check that "
            "yours takes it.");
    }
    safety.push_back(
        "A sudden flat at speed can throw a rider. First ride a fresh setup somewhere "
        "easy, not alone down a fast descent.");
    safety.push_back(
        "Course rules, local law and a qualified mechanic come first. A model of luck is "
        "no promise.");
    return safety;
}

std::string lay_check_page(const CheckFacts& facts, const PageOptions& raw_options) {
    const PageOptions options = settle_options(raw_options);
    Lines page{paint(shorten_end(clean_line(facts.name), options.width), Ink::kStrong,
                     options.colour)};
    append_section(page, lay_setups(facts.setups, options));
    Lines doubts;
    for (const Problem& problem : facts.warnings) {
        doubts.push_back(format_problem(problem));
    }
    append_section(page, lay_list("DOUBTS", doubts, Ink::kWarning, options));
    for (const Lines& section : lay_values(facts, options)) append_section(page, section);
    append_section(page, lay_list("TAKE CARE", facts.safety, Ink::kPlain, options));
    append_section(page, {paint("Check code of this scenario: " + facts.fingerprint,
                                Ink::kFaint, options.colour)});
    return join_lines(page);
}

}  // namespace flattail::publish

namespace flattail {

std::string write_check_page(const Scenario& scenario, const PageOptions& options,
                             const std::vector<ValueWeight>& weights) {
    return publish::lay_check_page(publish::gather_facts(scenario, weights), options);
}

}  // namespace flattail

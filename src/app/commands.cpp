#include "app/commands.h"

#include <fmt/format.h>

#include <filesystem>
#include <string>

#include "app/evidence.h"
#include "app/flats.h"
#include "app/interrupt.h"
#include "app/replay.h"
#include "app/start.h"
#include "app/terminal.h"
#include "flattail/brief.h"
#include "flattail/pictures.h"
#include "flattail/preparation.h"
#include "flattail/publish.h"
#include "flattail/roster.h"
#include "flattail/scenario.h"
#include "flattail/study.h"
#include "flattail/sweep.h"
#include "flattail/why.h"

namespace flattail::app {

namespace {

std::string choose_directory(const Request& request, const Scenario& scenario) {
    if (!request.directory.empty()) return request.directory;
    // Named after the file, or its folder for a plain "scenario.toml": two scenarios of
    // one race then keep their tables apart.
    const std::filesystem::path file(request.scenario);
    std::string name = file.stem().string();
    if (name == "scenario") name = file.parent_path().filename().string();
    return "reports/run/" + name_directory(name.empty() ? scenario.name() : name);
}

// The study asked for, with a line of progress that goes when it ends, and Ctrl-C heeded.
class WatchedStudy {
  public:
    explicit WatchedStudy(const Request& request)
        : progress_(request.quiet ? ProgressLine::Wanted::kNo
                                  : ProgressLine::Wanted::kYes),
          options_(request.study) {
        options_.progress = [this](double share) { progress_.show(share); };
        options_.should_stop = is_interrupted;
        catch_interrupts();
    }
    WatchedStudy(const WatchedStudy&) = delete;
    WatchedStudy& operator=(const WatchedStudy&) = delete;

    const StudyOptions& options() const { return options_; }

  private:
    ProgressLine progress_;
    StudyOptions options_;
};

PageOptions choose_page(const std::string& directory = "") {
    PageOptions options;
    options.colour = choose_colour();
    options.tables_directory = directory;
    return options;
}

// Whether every picture could be drawn.
bool tell_drawn(const Drawn& drawn) {
    for (const std::string& problem : drawn.problems) write_notice(problem);
    return drawn.problems.empty();
}

void warn_of_doubts(const Request& request, const Scenario& scenario) {
    if (request.quiet) return;
    for (const Problem& doubt : scenario.warnings()) write_notice(format_problem(doubt));
}

// What a study leaves behind whatever was printed of it.
struct Written {
    Findings findings;
    AdviceTurns turns;  // told in a brief alone
    std::string directory;
    bool is_whole = true;  // every file that was asked for
};

Written write_study(const Request& request, const Scenario& scenario) {
    warn_of_doubts(request, scenario);
    Written written;
    written.directory = choose_directory(request, scenario);
    prepare_tables_directory(written.directory);
    const WatchedStudy study(request);
    if (request.command == Command::kBrief) {
        WhyFindings why = explain_briefly(scenario, study.options());
        written.turns = tell_turns(why);
        written.findings = std::move(why.race);
    } else {
        written.findings = run_study(scenario, study.options());
    }
    write_tables(written.findings, written.directory);
    if (request.pictures) {
        written.is_whole =
            tell_drawn(write_pictures(written.findings, scenario, written.directory));
    }
    return written;
}

ExitCode end_study(const Written& written) {
    const StudyFacts& facts = written.findings.facts;
    if (facts.stopped_early) {
        write_notice(fmt::format("stopped early after {} race days; the tables say so",
                                 facts.races));
    }
    return facts.stopped_early || !written.is_whole ? ExitCode::kSurroundingsFailed
                                                    : ExitCode::kDone;
}

ExitCode run_race(const Request& request, const Scenario& scenario) {
    const Written written = write_study(request, scenario);
    if (request.json) {
        write_output(write_findings_json(written.findings));
    } else if (!request.quiet) {
        const PageOptions options = choose_page(written.directory);
        write_output(write_page(written.findings, options));
    }
    return end_study(written);
}

ExitCode run_brief(const Request& request, const Scenario& scenario) {
    Written written = write_study(request, scenario);
    const Drawn drawn =
        write_brief(written.findings, scenario, written.directory, written.turns);
    for (const std::string& problem : drawn.problems) write_notice(problem);
    written.is_whole = written.is_whole && drawn.problems.empty();
    if (!request.quiet) {
        write_output(write_brief_card(written.findings, scenario));
        write_output(fmt::format("\nBrief: {0}/brief.html{1}\n", written.directory,
                                 drawn.problems.empty() ? " and brief.pdf" : ""));
    }
    return end_study(written);
}

ExitCode explain_race(const Request& request, const Scenario& scenario) {
    const std::string directory = choose_directory(request, scenario);
    prepare_tables_directory(directory);
    const WatchedStudy study(request);
    const WhyFindings why = explain(scenario, study.options());
    write_why_tables(why, directory);
    bool is_whole = !why.stopped_early;
    if (request.pictures && !tell_drawn(write_why_pictures(why, directory))) {
        is_whole = false;
    }
    const PageOptions options = choose_page(directory);
    if (!request.quiet) write_output(write_why_page(why, options));
    if (why.stopped_early) {
        write_notice("stopped early; the tables hold the questions that were asked");
    }
    return is_whole ? ExitCode::kDone : ExitCode::kSurroundingsFailed;
}

ExitCode run_roster(const Request& request) {
    const std::vector<RosterRow> rows =
        read_roster(request.roster, request.scenario, request.settings);
    std::string directory = request.directory;
    if (directory.empty()) {
        const std::filesystem::path file(request.roster);
        directory = "reports/run/" + name_directory(file.stem().string());
    }
    prepare_tables_directory(directory);
    using Wanted = ProgressLine::Wanted;
    ProgressLine progress(request.quiet ? Wanted::kNo : Wanted::kYes);
    RosterOptions options;
    options.study = request.study;
    options.study.should_stop = is_interrupted;
    options.progress = [&progress](double share, std::size_t) { progress.show(share); };
    catch_interrupts();
    const RosterOutcome outcome = write_roster(rows, options, directory);
    for (const Problem& problem : outcome.problems) write_notice(format_problem(problem));
    for (const std::string& line : outcome.not_drawn) write_notice(line);
    if (!request.quiet) {
        write_output(fmt::format("{} of {} briefs written: {}/index.html\n", outcome.done,
                                 rows.size(), directory));
    }
    if (!outcome.problems.empty()) return ExitCode::kInputWrong;
    const bool is_whole = !outcome.stopped_early && outcome.not_drawn.empty();
    return is_whole ? ExitCode::kDone : ExitCode::kSurroundingsFailed;
}

ExitCode sweep_value(const Request& request, const Scenario& scenario) {
    const std::string directory = choose_directory(request, scenario);
    prepare_tables_directory(directory);
    const WatchedStudy study(request);
    const SweepFindings sweep =
        run_sweep({request.scenario, request.settings}, request.over, study.options());
    write_sweep_table(sweep, directory);
    const PageOptions options = choose_page(directory);
    if (!request.quiet) write_output(write_sweep_page(sweep, options));
    if (!sweep.stopped_early) return ExitCode::kDone;
    write_notice("stopped early; the table holds the values that were done");
    return ExitCode::kSurroundingsFailed;
}

ExitCode show_check(const Request& request, const Scenario& scenario) {
    const PageOptions options = choose_page();
    const WatchedStudy study(request);
    const auto weights = weigh_values(scenario, study.options());
    write_output(write_check_page(scenario, options, weights));
    return ExitCode::kDone;
}

ExitCode show_course(const Request& request, const Scenario& scenario) {
    const PageOptions options = choose_page();
    if (!request.directory.empty()) write_course_table(scenario, request.directory);
    write_output(write_course_page(scenario, options));
    return ExitCode::kDone;
}

ExitCode show_pump(const Request& request, const Scenario& scenario) {
    // Pictures need a folder; without them nothing is written unless it is asked for.
    const std::string directory =
        request.pictures ? choose_directory(request, scenario) : request.directory;
    if (!directory.empty()) prepare_tables_directory(directory);
    const PumpPlan plan = plan_pumping(scenario, request.study);
    std::vector<SetupPressure> best;
    if (request.best) {
        best = find_best_pressures(scenario, WatchedStudy(request).options());
    }
    if (!directory.empty()) write_pump_tables(plan, best, directory);
    const bool is_drawn =
        !request.pictures || tell_drawn(write_pump_pictures(plan, directory));
    const PageOptions options = choose_page(directory);
    std::string page = write_pump_page(plan, options);
    if (!best.empty()) page += '\n' + write_pressure_page(best, options);
    write_output(page);
    return is_interrupted() || !is_drawn ? ExitCode::kSurroundingsFailed
                                         : ExitCode::kDone;
}

}  // namespace

ExitCode run_command(const Request& request) {
    if (request.command == Command::kFlats) return run_flats(request);
    if (request.command == Command::kStart) return run_start(request.scenario);
    if (request.command == Command::kEvidence) return run_evidence(request);
    if (!request.roster.empty()) return run_roster(request);
    const Scenario scenario = read_scenario({request.scenario, request.settings});
    switch (request.command) {
        case Command::kWhy:
            return explain_race(request, scenario);
        case Command::kSweep:
            return sweep_value(request, scenario);
        case Command::kCheck:
            return show_check(request, scenario);
        case Command::kCourse:
            return show_course(request, scenario);
        case Command::kPump:
            return show_pump(request, scenario);
        case Command::kBrief:
            return run_brief(request, scenario);
        case Command::kReplay:
            return run_replay(request, scenario);
        case Command::kRace:
        case Command::kEvidence:
        case Command::kStart:
        case Command::kFlats:
            break;
    }
    return run_race(request, scenario);
}

}  // namespace flattail::app

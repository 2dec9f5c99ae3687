// Every athlete of a roster, several at once.
#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>

#include "flattail/brief.h"
#include "flattail/publish.h"
#include "flattail/roster.h"
#include "flattail/why.h"
#include "publish/roster/squad.h"
#include "publish/tables/write_files.h"

namespace flattail {

namespace {

using publish::SquadLine;

// Rides rows until none is left; one of these per thread.
class Squad {
  public:
    Squad(const std::vector<RosterRow>& rows, const RosterOptions& options,
          const std::string& directory)
        : rows_(rows),
          options_(options),
          directory_(directory),
          lines_(rows.size()),
          row_problems_(rows.size()),
          shares_(rows.size(), 0.0) {}

    void work() {
        try {
            for (std::size_t i = next_++; i < rows_.size(); i = next_++) {
                if (failure_set_ || is_stopped()) return;
                ride(i);
            }
        } catch (...) {
            const std::lock_guard guard(lock_);
            if (!failure_) failure_ = std::current_exception();
            failure_set_ = true;
        }
    }

    // Errors: what stopped a worker
    RosterOutcome collect() {
        if (failure_) std::rethrow_exception(failure_);
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            outcome_.problems.insert(outcome_.problems.end(), row_problems_[i].begin(),
                                     row_problems_[i].end());
            outcome_.done += lines_[i].is_written ? 1U : 0U;
        }
        outcome_.stopped_early = outcome_.done + count_failed() < rows_.size();
        std::sort(outcome_.not_drawn.begin(), outcome_.not_drawn.end());
        return outcome_;
    }

    const std::vector<SquadLine>& lines() const { return lines_; }

  private:
    bool is_stopped() const {
        return options_.study.should_stop && options_.study.should_stop();
    }

    std::size_t count_failed() const {
        return static_cast<std::size_t>(
            std::count_if(row_problems_.begin(), row_problems_.end(),
                          [](const auto& problems) { return !problems.empty(); }));
    }

    void ride(std::size_t i) {
        const RosterRow& row = rows_[i];
        lines_[i].athlete = row.athlete;
        lines_[i].scenario_file = row.source.path;
        try {
            const Scenario scenario = read_scenario(row.source);
            StudyOptions study = options_.study;
            study.threads = 1;
            study.progress = [&](double share) { report(i, 0.9 * share); };
            const WhyFindings why = explain_briefly(scenario, study);
            const Findings& findings = why.race;
            if (why.stopped_early) return;
            const std::string directory = directory_ + "/" + row.folder;
            write_tables(findings, directory);
            remember(write_brief(findings, scenario, directory, tell_turns(why)));
            lines_[i] = publish::summarise_athlete(row, findings);
        } catch (const InvalidInput& error) {
            for (const Problem& problem : error.problems()) note(i, problem);
        }
        report(i, 1.0);
    }

    void note(std::size_t i, const Problem& problem) {
        // A cell of the row has become a setting; its place is the row.
        Problem told = problem;
        if (told.place.file == "--set") told.place = {};
        const std::string what = format_problem(told);
        lines_[i].problems.push_back(what);
        row_problems_[i].push_back(
            {rows_[i].place, fmt::format("{}: {}", rows_[i].athlete, what), ""});
    }

    void remember(const Drawn& drawn) {
        const std::lock_guard guard(lock_);
        for (const std::string& problem : drawn.problems) {
            auto& told = outcome_.not_drawn;
            if (std::count(told.begin(), told.end(), problem) == 0)
                told.push_back(problem);
        }
    }

    void report(std::size_t i, double share) {
        const std::lock_guard guard(lock_);
        shares_[i] = share;
        if (!options_.progress) return;
        double sum = 0.0;
        std::size_t done = 0;
        for (const double part : shares_) {
            sum += part;
            done += part == 1.0 ? 1U : 0U;
        }
        options_.progress(sum / static_cast<double>(shares_.size()), done);
    }

    const std::vector<RosterRow>& rows_;
    const RosterOptions& options_;
    const std::string& directory_;
    std::vector<SquadLine> lines_;
    std::vector<std::vector<Problem>> row_problems_;
    std::vector<double> shares_;
    RosterOutcome outcome_;
    std::atomic<std::size_t> next_{0};
    std::atomic<bool> failure_set_{false};
    std::exception_ptr failure_;
    std::mutex lock_;
};

std::size_t count_workers(int threads, std::size_t rows) {
    const std::size_t wanted = threads > 0 ? static_cast<std::size_t>(threads)
                                           : std::thread::hardware_concurrency();
    return std::clamp<std::size_t>(wanted, 1, std::max<std::size_t>(rows, 1));
}

}  // namespace

RosterOutcome write_roster(const std::vector<RosterRow>& rows,
                           const RosterOptions& options, const std::string& directory) {
    Squad squad(rows, options, directory);
    std::vector<std::thread> workers;
    for (std::size_t i = count_workers(options.study.threads, rows.size()); i > 0; --i) {
        workers.emplace_back([&squad] { squad.work(); });
    }
    for (std::thread& worker : workers) worker.join();
    RosterOutcome outcome = squad.collect();
    publish::write_files_together(
        directory, {{"roster.csv", publish::write_roster_csv(squad.lines())},
                    {"index.html", publish::write_index_html(squad.lines())}});
    return outcome;
}

}  // namespace flattail

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "bench/rows.h"
#include "bench/shipped.h"
#include "bench/table.h"

namespace flattail::bench {

namespace {

constexpr double kZ95 = 1.959963985;
constexpr std::int64_t kAnswerRaces = 25'000;
constexpr std::int64_t kRareRaces = 100'000;
constexpr std::int64_t kPlainRaces = 65'536;
constexpr double kMeanAimS = 1.0, kTailAimS = 5.0, kInsideAim = 93.0, kRareAim = 1.0;
// A study to repeat over seeds, and one so much larger that it stands for the truth: its
// own error widens the others' by 1 %.
constexpr std::int64_t kSmallRaces = 4096;
constexpr std::int64_t kTruthPerSmall = 64;
// Exact chance of no finish on the exact example: quadrature (mpmath), convolution (FFT)
// and the R package actuar agree on it to all digits given.
constexpr double kExactNoFinish = 3.44182402447e-5;

void add_half_width_rows() {
    const Findings found =
        run_study(read_shipped("lakeside"), make_options(kAnswerRaces));
    for (const PairFindings& pair : found.pairs) {
        const std::string name = found.setups[static_cast<std::size_t>(pair.setup)].name;
        const std::string days = fmt::format("{} days", found.facts.races);
        print_row({"average difference, " + name + ", +-",
                   kZ95 * pair.mean_s.standard_error, " s", Aim::kAtMost, kMeanAimS, 0.0,
                   days});
        print_row({"difference of the two P95, " + name + ", +-",
                   kZ95 * pair.p95_difference_s.standard_error, " s", Aim::kAtMost,
                   kTailAimS, 0.0, days});
    }
}

struct Inside {
    int held = 0;
    int all = 0;

    void add(const Figure& figure, const Figure& truth) {
        ++all;
        const double miss = std::abs(figure.value - truth.value);
        if (miss <= kZ95 * figure.standard_error) ++held;
    }
    double percent() const { return 100.0 * held / std::max(all, 1); }
};

void add_inside_rows(const Effort& effort) {
    const Scenario scenario = read_shipped("lakeside");
    const std::uint64_t truth_seed = 1'000'003;
    const Findings truth =
        run_study(scenario, make_options(kTruthPerSmall * kSmallRaces, truth_seed));
    Inside mean, tail;
    for (int seed = 1; seed <= effort.seeds; ++seed) {
        const Findings found = run_study(
            scenario, make_options(kSmallRaces, static_cast<std::uint64_t>(seed)));
        for (std::size_t p = 0; p < found.pairs.size(); ++p) {
            mean.add(found.pairs[p].mean_s, truth.pairs[p].mean_s);
            tail.add(found.pairs[p].p95_difference_s, truth.pairs[p].p95_difference_s);
        }
    }
    const std::string beside = fmt::format("{} seeds x {} pairs, {} days each",
                                           effort.seeds, truth.pairs.size(), kSmallRaces);
    print_row({"average differences inside their interval", mean.percent(), " %",
               Aim::kAtLeast, kInsideAim, 0.0, beside});
    print_row({"differences of P95 inside their interval", tail.percent(), " %",
               Aim::kAtLeast, kInsideAim, 0.0, beside});
}

double find_relative_percent(const Figure& chance) {
    return 100.0 * chance.standard_error / chance.value;
}

void add_exact_row() {
    const Findings found = run_study(read_exact_flats(), make_options(kRareRaces));
    const Figure& chance = found.setups.front().no_finish;
    print_row({"no finish on the exact example, +-", find_relative_percent(chance), " %",
               Aim::kAtMost, kRareAim, 0.0,
               fmt::format("{:.4e}, exact {:.4e}: {:+.1f} standard errors", chance.value,
                           kExactNoFinish,
                           (chance.value - kExactNoFinish) / chance.standard_error)});
}

// As shipped: repairs that fail, flat rates that are not known, help by officials. Plain
// days, drawn as they come, check the weights.
void add_hills_rows(const Effort& effort) {
    const Scenario scenario = read_shipped("hills");
    const Findings found = run_study(scenario, make_options(kRareRaces));
    StudyOptions options = make_options(effort.plain_races, 77);
    options.draw = DrawKind::kPlain;
    const Findings plain = run_study(scenario, options);
    for (std::size_t s = 0; s < found.setups.size(); ++s) {
        const Figure &chance = found.setups[s].no_finish,
                     &check = plain.setups[s].no_finish;
        const double apart = (chance.value - check.value) /
                             std::hypot(chance.standard_error, check.standard_error);
        print_row({"no finish on hills, " + found.setups[s].name + ", +-",
                   find_relative_percent(chance), " %", Aim::kAtMost, kRareAim, 0.0,
                   fmt::format("{:.5f}, {} plain days {:.5f}: {:+.1f} standard errors",
                               chance.value, effort.plain_races, check.value, apart)});
    }
}

// Errors fall with the root of the days, so plain days needed for one stratified day are
// the square of the ratio of the errors from as many of each.
void add_plain_row(const std::string& what, const Figure& plain, const Figure& stratified,
                   double unit, const char* unit_name) {
    const double z = kZ95 * unit;
    print_row({what, std::pow(plain.standard_error / stratified.standard_error, 2),
               " plain days for one", Aim::kNone, 0.0, 0.0,
               fmt::format("+-{:.3g}{} from {} days, plain +-{:.3g}{}",
                           z * stratified.standard_error, unit_name, kPlainRaces,
                           z * plain.standard_error, unit_name)});
}

void add_plain_rows(const std::string& name) {
    const Scenario scenario = read_shipped(name);
    StudyOptions options = make_options(kPlainRaces);
    const Findings found = run_study(scenario, options);
    options.draw = DrawKind::kPlain;
    const Findings plain = run_study(scenario, options);
    for (std::size_t p = 0; p < found.pairs.size(); ++p) {
        const auto setup = static_cast<std::size_t>(found.pairs[p].setup);
        add_plain_row("average difference, " + name + ", " + found.setups[setup].name,
                      plain.pairs[p].mean_s, found.pairs[p].mean_s, 1.0, " s");
    }
    for (std::size_t s = 0; s < found.setups.size(); ++s) {
        add_plain_row("no finish, " + name + ", " + found.setups[s].name,
                      plain.setups[s].no_finish, found.setups[s].no_finish, 100.0,
                      " in 100");
    }
}

}  // namespace

void add_answer_rows(const Effort& effort) {
    print_group("The answer, 95 % half-widths");
    add_half_width_rows();
    add_inside_rows(effort);
    print_group(fmt::format("Rare, relative standard error from {} days", kRareRaces));
    add_exact_row();
    add_hills_rows(effort);
    print_group("Days drawn plainly for the same half-width");
    add_plain_rows("lakeside");
    add_plain_rows("hills");
}

}  // namespace flattail::bench

#include "base/problem_list.h"

#include <algorithm>

namespace flattail::base {

namespace {

// Optimal string alignment distance: insert, delete, replace, swap of two neighbours
// cost 1.
std::size_t count_edits(const std::string& a, const std::string& b) {
    std::vector<std::vector<std::size_t>> d(a.size() + 1,
                                            std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
    for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replace = d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, replace});
            const bool swapped =
                i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
        }
    }
    return d[a.size()][b.size()];
}

// Whether `word` is the candidate with some letters left out.
bool drops_letters(const std::string& word, const std::string& candidate) {
    std::size_t found = 0;
    for (const char c : candidate) {
        if (found < word.size() && word[found] == c) ++found;
    }
    return found == word.size();
}

}  // namespace

void ProblemList::throw_if_errors() const {
    if (!has_errors()) return;
    std::vector<Problem> errors;
    std::copy_if(list_.begin(), list_.end(), std::back_inserter(errors),
                 [](const Problem& p) { return p.severity == Severity::kError; });
    throw InvalidInput(std::move(errors));
}

std::string find_nearest_name(const std::string& word,
                              const std::vector<std::string>& known) {
    std::string best;
    std::size_t best_edits = word.size() / 3 + 1;
    for (const std::string& candidate : known) {
        const std::size_t edits = count_edits(word, candidate);
        const std::size_t limit = std::max(word.size(), candidate.size()) / 3 + 1;
        if (edits > limit || edits > best_edits) continue;
        const bool is_nearer =
            best.empty() || edits < best_edits ||
            (drops_letters(word, candidate) && !drops_letters(word, best));
        if (!is_nearer) continue;
        best = candidate;
        best_edits = edits;
    }
    return best;
}

}  // namespace flattail::base

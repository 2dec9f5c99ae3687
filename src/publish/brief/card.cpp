#include "publish/brief/card.h"

#include <fmt/format.h>

#include <algorithm>

#include "publish/pages/text.h"

namespace flattail::publish {

namespace {

constexpr int kColumns = 72;

// Less is no clause but its heading.
constexpr std::size_t kShortestClause = 16;

// A line that is too wide ends where its first whole clause does.
std::string end_early(const std::string& line) {
    if (measure_width(line) <= kColumns) return line;
    for (const char* end : {". ", "; ", ": ", " ("}) {
        const std::size_t at = line.find(end);
        if (at == std::string::npos || at < kShortestClause) continue;
        const std::string clause = line.substr(0, at) + '.';
        if (measure_width(clause) <= kColumns) return clause;
    }
    return line;
}

class Card {
  public:
    void add(const std::string& line) {
        if (!line.empty()) text_ += shorten_end(end_early(line), kColumns) + '\n';
    }
    // What cannot be told in a line is left to the page.
    void add_if_whole(const std::string& line) {
        if (measure_width(end_early(line)) <= kColumns) add(line);
    }
    const std::string& text() const { return text_; }

  private:
    std::string text_;
};

std::string find_cell(const BriefContent& content, const std::string& label) {
    for (const BriefRow& row : content.rows) {
        if (row.label == label && !row.cells.empty()) return row.cells.front();
    }
    return "";
}

// The first sentence of a block that says where or what.
std::string find_line(const BriefContent& content, const std::string& title) {
    for (const BriefBlock& block : content.blocks) {
        if (block.title == title && !block.lines.empty()) return block.lines.front();
    }
    return "";
}

// "This setup: ..." on a message about this setup.
std::string drop_heading(const std::string& line) {
    const std::string heading = "This setup: ";
    if (line.rfind(heading, 0) != 0) return line;
    std::string rest = line.substr(heading.size());
    if (rest[0] >= 'a' && rest[0] <= 'z') rest[0] = static_cast<char>(rest[0] - 32);
    return rest;
}

std::string upper_first_word(std::string text) {
    const std::size_t end = std::min(text.find(' '), text.size());
    for (std::size_t i = 0; i < end; ++i) {
        if (text[i] >= 'a' && text[i] <= 'z') text[i] = static_cast<char>(text[i] - 32);
    }
    return text;
}

}  // namespace

std::string write_card(const BriefContent& content) {
    Card card;
    card.add(content.race + (content.invented ? " (invented example)" : ""));
    std::string who = content.day;
    if (!content.rider.empty()) who = content.rider + (who.empty() ? "" : ", ") + who;
    card.add(who + (who.empty() ? "" : ", ") + "start " + content.start);
    std::string advice = upper_first_word(content.advice);
    if (!content.certainty.empty()) advice += " (" + content.certainty + ")";
    card.add(advice);
    if (!content.columns.empty() && content.columns.front().role == "ride this") {
        card.add(content.columns.front().brief_wheels);
    }
    if (!content.reasons.empty()) card.add(content.reasons.front());
    if (content.reasons.size() > 1) card.add_if_whole(content.reasons[1]);
    const std::string typical = find_cell(content, "Typical day");
    if (!typical.empty()) {
        card.add("Typical day " + typical +
                 "; 9 in 10: " + find_cell(content, "9 days in 10 are within"));
    }
    if (!content.deadlines.empty()) {
        const std::string& first = content.deadlines.front();
        card.add(first.substr(0, first.find(':')) + ".");
    }
    if (!content.pump.rows.empty()) {
        // The column nearest to the forecast is the third of four (METHOD 16).
        const BriefPump& pump = content.pump;
        const std::size_t column = pump.columns.size() / 2;
        card.add(fmt::format("{}: {} at {}", pump.title, pump.rows.front().cells[column],
                             pump.columns[column]));
    }
    const std::string carry = find_line(content, "CARRY");
    if (!carry.empty()) card.add("Carry: " + carry);
    card.add(drop_heading(find_line(content, "TAKE CARE")));
    card.add("Rules, law, a mechanic come first; luck is no promise. " + content.check);
    return card.text();
}

}  // namespace flattail::publish

#include "scenario/setups/kit.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace flattail::scenario {

namespace {

using input::Node;

constexpr int kMostOfOne = 20;
constexpr const char* kUsualSpare = "butyl";
constexpr const char* kHint =
    "write words like \"tube\", \"latex tube\", \"2 tubes\", \"cartridge 16 g\", "
    "\"pump\", "
    "\"levers\"";

// Useful on the road, without a part in the model.
constexpr std::array<const char*, 14> kUncounted = {
    "plug",     "plugs",          "boot",      "lever",      "levers",
    "patch",    "patches",        "patch kit", "glove",      "gloves",
    "inflator", "valve extender", "core tool", "sealant can"};

struct Item {
    int count = 1;
    std::string words;  // lower case, without the count
};

// "2 tubes", "2 x tube" and "tube".
Item split_count(const std::string& text) {
    Item item;
    item.words = fold_case(text);
    const std::size_t digits = item.words.find_first_not_of("0123456789");
    if (digits == 0 || digits == std::string::npos || digits > 2) return item;
    item.count = std::stoi(item.words.substr(0, digits));
    item.words.erase(0, digits);
    const auto drop_blanks = [&] {
        const std::size_t first = item.words.find_first_not_of(' ');
        item.words.erase(0, std::min(first, item.words.size()));
    };
    drop_blanks();
    if (item.words.rfind("x ", 0) == 0) item.words.erase(0, 1);
    drop_blanks();
    return item;
}

bool ends_with(const std::string& text, const std::string& end) {
    return text.size() >= end.size() &&
           text.compare(text.size() - end.size(), end.size(), end) == 0;
}

// "butyl tube" -> "butyl", "tubes" -> "", anything else -> nothing.
std::optional<std::string> read_tube_word(const std::string& words) {
    for (const std::string end : {"tubes", "tube"}) {
        if (words == end) return std::string();
        if (ends_with(words, ' ' + end)) {
            return words.substr(0, words.size() - end.size() - 1);
        }
    }
    return std::nullopt;
}

class KitReader {
  public:
    KitReader(const Parts& parts, base::ProblemList& problems)
        : parts_(parts), problems_(problems) {
        listed.kit.tubes = 0;
        listed.kit.inflations = 0;
    }

    void read_item(const Node& node) {
        if (!node.is(input::NodeKind::kString)) {
            return fail(node,
                        fmt::format("kit holds {}, not a word", describe_value(node)));
        }
        listed.kit.text += (listed.kit.text.empty() ? "" : ", ") + node.text;
        const Item item = split_count(node.text);
        if (item.count < 1 || item.count > kMostOfOne) {
            return fail(node, fmt::format("kit: \"{}\" is not 1 to {} of a thing",
                                          node.text, kMostOfOne));
        }
        count_item(node, item);
    }

    ListedKit listed;

  private:
    void count_item(const Node& node, const Item& item) {
        if (const auto tube = read_tube_word(item.words))
            return add_tubes(node, *tube, item.count);
        if (item.words.rfind("cartridge", 0) == 0) {
            listed.kit.inflations += item.count;
        } else if (item.words == "pump" || item.words == "small pump") {
            listed.kit.has_pump = true;
        } else if (std::find(kUncounted.begin(), kUncounted.end(), item.words) !=
                   kUncounted.end()) {
            listed.uncounted.push_back(node.text);
        } else {
            fail(node, fmt::format("kit: \"{}\" is not known", node.text));
        }
    }

    void add_tubes(const Node& node, const std::string& word, int count) {
        const auto name = parts_.find_inner_name(word.empty() ? kUsualSpare : word);
        if (!name) return fail(node, fmt::format("kit: no inner is called \"{}\"", word));
        if (!listed.spare.empty() && listed.spare != *name) {
            return fail(node, "kit: spare tubes of two kinds");
        }
        listed.spare = *name;
        listed.kit.tubes += count;
    }

    void fail(const Node& node, const std::string& what) {
        problems_.add_error(node.place, what, kHint);
    }

    const Parts& parts_;
    base::ProblemList& problems_;
};

}  // namespace

ListedKit read_kit(const Node* node, const Parts& parts, base::ProblemList& problems) {
    KitReader reader(parts, problems);
    ListedKit& listed = reader.listed;
    if (!node) {
        listed.kit.tubes = listed.kit.inflations = 1;
        listed.kit.text = "tube, cartridge 16 g";
        listed.spare = kUsualSpare;
    } else if (!node->is(input::NodeKind::kArray)) {
        problems.add_error(node->place, "kit is no list", kHint);
    } else {
        for (const Node& item : node->items) reader.read_item(item);
        if (listed.kit.text.empty()) listed.kit.text = "nothing";
    }
    return std::move(listed);
}

}  // namespace flattail::scenario

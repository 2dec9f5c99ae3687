#include "scenario/setups/like.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "scenario/values/table.h"

namespace flattail::scenario {

namespace {

using input::Node;

constexpr std::array<const char*, 2> kWheels = {"front", "rear"};

// What can be said of both wheels or of one.
constexpr std::array<const char*, 7> kWheelKeys = {
    "tyre", "inner", "pressure", "worn", "ridden_since_fitting", "rim_depth", "disc"};

void remove_key(Node& table, const char* key) {
    std::erase_if(table.items, [&](const Node& item) { return item.key == key; });
}

// What is true of the part that was ridden, and of no other put in its place.
struct Use {
    const char* key;
    std::vector<const char*> parts;
};

const std::array<Use, 2>& uses() {
    static const std::array<Use, 2> kUses{
        {{"ridden_since_fitting", {"tyre", "inner"}}, {"worn", {"tyre"}}}};
    return kUses;
}

// One wheel's view of a setup: its own table first, then what is said of both.
const Node* find_for(const Node& setup, const char* wheel, const char* key) {
    const Node* table = setup.find(wheel);
    const Node* own = table ? table->find(key) : nullptr;
    return own ? own : setup.find(key);
}

bool has_another(const Node& own, const Node& copied, const char* wheel,
                 const std::vector<const char*>& parts) {
    return std::any_of(parts.begin(), parts.end(), [&](const char* part) {
        const Node* mine = find_for(own, wheel, part);
        const Node* other = find_for(copied, wheel, part);
        return mine && other && fold_case(mine->text) != fold_case(other->text);
    });
}

Node& take_table(Node& setup, const char* key) {
    if (Node* table = setup.find(key)) return *table;
    Node table;
    table.kind = input::NodeKind::kTable;
    table.key = key;
    table.place = setup.place;
    setup.items.push_back(table);
    return setup.items.back();
}

// Another tyre or inner starts its own count: only the wheels that keep theirs keep this.
Node forget_use(Node copied, const Node& own) {
    for (const Use& use : uses()) {
        std::array<std::optional<Node>, 2> kept;
        bool loses = false;
        for (std::size_t i = 0; i < kept.size(); ++i) {
            if (has_another(own, copied, kWheels[i], use.parts)) {
                loses = true;
            } else if (const Node* node = find_for(copied, kWheels[i], use.key)) {
                kept[i] = *node;
            }
        }
        if (!loses) continue;
        remove_key(copied, use.key);
        for (std::size_t i = 0; i < kept.size(); ++i) {
            if (Node* table = copied.find(kWheels[i])) remove_key(*table, use.key);
            if (kept[i]) take_table(copied, kWheels[i]).items.push_back(*kept[i]);
        }
    }
    return copied;
}

// What a setup says of both wheels is said of each.
Node forget_wheels(Node copied, const Node& own) {
    for (const char* key : kWheelKeys) {
        if (!own.find(key)) continue;
        for (const char* wheel : kWheels) {
            if (Node* table = copied.find(wheel)) remove_key(*table, key);
        }
    }
    return copied;
}

std::string read_name(const Node& setup) {
    const Node* name = setup.find("name");
    return name ? fold_case(name->text) : std::string();
}

class Resolver {
  public:
    Resolver(const Node& setups, base::ProblemList& problems)
        : written_(setups.items),
          resolved_(setups.items),
          states_(setups.items.size(), State::kOpen),
          problems_(problems) {}

    std::vector<Node> resolve_all() {
        for (std::size_t i = 0; i < written_.size(); ++i) resolve(i);
        return std::move(resolved_);
    }

  private:
    enum class State { kOpen, kInWork, kDone };

    void resolve(std::size_t i) {
        if (states_[i] != State::kOpen) return;
        states_[i] = State::kInWork;
        if (const Node* like = written_[i].find("like")) {
            if (const auto j = find_original(i, *like)) copy_from(i, *j);
        }
        states_[i] = State::kDone;
    }

    // The setup that is copied, or nothing after a problem.
    std::optional<std::size_t> find_original(std::size_t i, const Node& like) {
        const std::string wanted = fold_case(like.text);
        std::size_t j = 0;
        while (j < written_.size() && (j == i || read_name(written_[j]) != wanted)) ++j;
        if (j < written_.size() && states_[j] != State::kInWork) return j;
        const bool circle = j < written_.size() || read_name(written_[i]) == wanted;
        if (circle) {
            problems_.add_error(
                like.place,
                fmt::format("setup.like: \"{}\" is a copy of itself (a circle)",
                            like.text),
                "let one setup of the circle state its own parts");
        } else {
            problems_.add_error(
                like.place,
                fmt::format("setup.like: no setup is called \"{}\"", like.text),
                suggest(like.text, i));
        }
        return std::nullopt;
    }

    // A `like` that could not be resolved is copied too: it says that parts are missing.
    void copy_from(std::size_t i, std::size_t j) {
        resolve(j);
        remove_key(resolved_[i], "like");
        const Node& own = written_[i];
        Node copied = forget_wheels(forget_use(resolved_[j], own), own);
        for (const char* own_key : {"name", "on_now", "price"}) {
            remove_key(copied, own_key);
        }
        fill_from(resolved_[i], copied);
    }

    std::string suggest(const std::string& word, std::size_t except) const {
        std::vector<std::string> names;
        for (std::size_t k = 0; k < written_.size(); ++k) {
            const Node* name = written_[k].find("name");
            if (name && k != except) names.push_back(name->text);
        }
        const std::string nearest = base::find_nearest_name(word, names);
        if (!nearest.empty()) return fmt::format("did you mean \"{}\"?", nearest);
        return names.empty() ? "add the setup it is like" : "write " + list_words(names);
    }

    std::vector<Node> written_;
    std::vector<Node> resolved_;
    std::vector<State> states_;
    base::ProblemList& problems_;
};

}  // namespace

void fill_from(Node& own, const Node& copied) {
    // A stated gain is one statement: its keys must not mix with those of another.
    constexpr const char* kWhole = "rolling";
    for (const Node& entry : copied.items) {
        Node* same = own.find(entry.key);
        if (!same) {
            own.items.push_back(entry);
        } else if (same->is(input::NodeKind::kTable) &&
                   entry.is(input::NodeKind::kTable) && entry.key != kWhole) {
            fill_from(*same, entry);
        }
    }
}

std::vector<Node> resolve_likes(const Node& setups, base::ProblemList& problems) {
    return Resolver(setups, problems).resolve_all();
}

}  // namespace flattail::scenario

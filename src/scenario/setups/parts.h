// Tyres and inners: those that everyone knows by a word, and those of the user's lists.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "scenario/draft.h"

namespace flattail::scenario {

/// A tyre that a setup may name; its inputs join the model when one does.
struct TyrePart {
    Tyre tyre;
    Input crr_change;
    Input cut_ratio;
};

struct InnerPart {
    Inner inner;
    Input crr_change;
    Input cut_ratio;
    Input fitting_fault;
    Input sealant_holds;  // sealant only, as is the next
    Input sealant_loss_pa;
    Input air_loss_pa;
    std::optional<Input> carbon_dioxide_loss_pa;
};

class TestedProducts;

/// Finds parts by the words of a setup and puts each into the model once.
class Parts {
  public:
    /// Reads [[tyre]] and [[inner]]; both may be null.
    Parts(const input::Node* tyres, const input::Node* inners,
          const TestedProducts& tested, base::ProblemList& problems);

    /// The index in the model of the tyre that the node names, or nothing after a
    /// problem.
    std::optional<int> take_tyre(Draft& draft, const input::Node& node);
    std::optional<int> take_inner(Draft& draft, const input::Node& node);
    /// The same by name; the inner must be one that everyone knows.
    int take_known_inner(Draft& draft, const std::string& name);
    /// The name of the inner that a word stands for, or nothing.
    std::optional<std::string> find_inner_name(const std::string& word) const;
    /// What the inner of this name is made of, and how it holds air; it must be known.
    InnerMaterial find_material(const std::string& name) const;
    InnerKind find_kind(const std::string& name) const;

  private:
    std::optional<TyrePart> find_tyre(const std::string& word) const;
    std::optional<InnerPart> find_inner(const std::string& word) const;
    int add_inner(Draft& draft, const InnerPart& part);

    std::vector<TyrePart> tyres_;
    std::vector<InnerPart> inners_;
};

}  // namespace flattail::scenario

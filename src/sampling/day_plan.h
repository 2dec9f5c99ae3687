// Draws race days block by block: every number a pure function of seed, input, day and
// draw.
#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include "sampling/correlated.h"
#include "sampling/day_block.h"
#include "sampling/flat_points.h"
#include "sampling/place_process.h"
#include "sampling/road_hazard.h"
#include "sampling/sampler.h"
#include "scenario/model.h"

namespace flattail::sampling {

struct DayPlanOptions {
    std::uint64_t seed = 1;
    /// Days from the first that are drawn in groups by their flats; the rest comes as it
    /// comes. A part of a block would hold other shares of the groups than its weights
    /// say, so only whole blocks of these are.
    std::uint64_t grouped_days = std::numeric_limits<std::uint64_t>::max();
    base::InstructionSet instructions = base::InstructionSet::kBaseline;
};

class DayPlan {
  public:
    /// `mark_m`: places at which slow variation is read.
    DayPlan(const scenario::Model& model, const RoadHazard& road,
            std::vector<double> mark_m, const DayPlanOptions& options);

    /// A block with room for every draw; constants are already in it.
    DayBlock make_block() const;

    /// The days first_day to first_day + 63; first_day is a multiple of 64.
    /// Accuracy: same bits whatever was drawn before, on any instruction set
    void fill(std::uint64_t first_day, DayBlock& block) const;

    /// The same days' inputs only, without places and points: for regressions on what is
    /// not known.
    void fill_values(std::uint64_t first_day, DayBlock& block) const;

    /// The knowledge part of one input as normal scores, for the same days.
    void fill_knowledge_scores(InputId input, std::uint64_t first_day, double* out) const;

    /// Inputs of which something is not known.
    std::vector<InputId> knowledge_inputs() const;

    const FlatPoints& flats() const { return flats_; }
    const VectorMath& math() const { return *math_; }

  private:
    // Where a layer of an input stands in a group of inputs drawn together.
    struct Seat {
        int group = -1;  // drawn alone
        int place = 0;
    };
    // One layer of an input: from its own stream, or from a row that other inputs read
    // too.
    struct CompiledLayer {
        Sampler sampler;
        Stream stream;
        std::vector<double> row_score;  // per row, where values are rows of a file
        Seat seat = {};
    };
    struct CompiledInput {
        double centre = 0.0;
        Deviation deviation = Deviation::kNone;
        std::optional<CompiledLayer> knowledge;
        std::optional<CompiledLayer> luck;
    };
    struct Group {
        CorrelatedScores scores;
        std::vector<Stream> streams;  // of its members
    };

    Stream find_stream(const Input& input, const Distribution& layer,
                       std::uint32_t draw) const;
    void join(const scenario::Correlation& together);
    void fill_scores(const CompiledLayer& layer, std::uint64_t first_day,
                     double* out) const;
    void fill_layer(const CompiledLayer& layer, std::uint64_t first_day,
                    double* out) const;
    void fill_input(const CompiledInput& input, std::uint64_t first_day,
                    double* out) const;

    void fill_bad_days(std::uint64_t first_day, DayBlock& block) const;

    std::uint64_t seed_;
    const VectorMath* math_;
    std::vector<double> mark_m_;
    InputId bad_day_chance_;
    std::vector<CompiledInput> inputs_;
    std::vector<Group> groups_;
    PlaceProcess power_;
    PlaceProcess wind_;
    FlatPoints flats_;
};

}  // namespace flattail::sampling

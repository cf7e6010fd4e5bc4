#pragma once
// What is made of a bake once for all that is asked of it.
#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "forecast/draw.h"
#include "forecast/journey.h"
#include "forecast/warmth.h"

namespace barm::forecast {

/// The temperatures of each dough up to the end of its first bulk.
using Bulks = std::function<heat::Track(std::size_t)>;

/// How finely the steps of a track follow its temperatures: where stages are told, or for hours
/// alone (heat/track.h).
enum class TrackSteps { usual, for_many };

/// The first draws of one bowl and how their bulk warms, kept from one question to the next. All
/// questions are of the same bowl, starter, seed, prior, horizon and stages before the bulk; how
/// far the bulk goes and where it stands may differ.
class Made {
 public:
  static constexpr std::size_t most_kept = 1000;  ///< draws: a few MB

  /// The first `count` draws, at most as many as are kept. Errors: as draws().
  [[nodiscard]] Result<std::span<const Draw>> draws(const formula::Bake& bake,
                                                    const Options& options,
                                                    std::size_t count);

  /// Draw number -1. Errors: as draw().
  [[nodiscard]] Result<Draw> middle(const formula::Bake& bake, const Options& options);

  /// How the bulk warms, by the middle draw. Errors: as Warmth::of().
  [[nodiscard]] Result<Warmth> warmth(const formula::Bake& bake,
                                      const Options& options,
                                      const Proving& proving);

  /// How each of these draws warms, in order of the draws. Errors: as Warmth::of().
  [[nodiscard]] Result<Bulks> bulks(const formula::Bake& bake,
                                    const Options& options,
                                    const Proving& proving,
                                    std::span<const Walking> doughs,
                                    TrackSteps steps);

 private:
  using Tracks = std::vector<heat::Track>;

  struct Warmed {
    double celsius = 0, target = 0;
    Warmth warmth;
    std::optional<BulksByLuck> by_luck = std::nullopt;
    std::array<std::shared_ptr<Tracks>, 2> tracks = {};  // by steps
  };

  [[nodiscard]] Result<Warmed*> warmed(const formula::Bake& bake,
                                       const Options& options,
                                       const Proving& proving);

  std::vector<Draw> draws_;
  std::optional<Draw> middle_;
  std::vector<Warmed> warmed_;
};

}  // namespace barm::forecast

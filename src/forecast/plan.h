#pragma once
// A bake as it goes: what is done already stands as it was done.
#include <optional>
#include <vector>

#include "forecast/course.h"
#include "forecast/options.h"
#include "formula/bake.h"

namespace barm::forecast {

/// The bake with what is done held fixed: every stage up to the last one done lasts as long as it
/// did. Where a stage was not ticked off, the next one that was ended it.
struct Plan {
  formula::Bake bake;
  std::vector<std::optional<std::size_t>> in_file;  ///< of each stage of `bake`; empty: ours
  std::vector<char> done;                           ///< of each stage of `bake`

  /// A bake that names no bulk has one at 24 C to the target, after what comes before dividing.
  /// `options` say what is done and may give the first bulk another temperature or target.
  [[nodiscard]] static Plan of(const formula::Bake& bake, const Options& options);
};

/// The plan with its first bulk left to its target, where the bake gives it a time.
[[nodiscard]] Plan to_its_target(Plan plan);

/// From mixing to the begin of the first bulk: what its cold takes. Beyond any horizon where the
/// cold has no end.
[[nodiscard]] Time bulk_begins(const formula::Bake& bake);

/// The folds of the first bulk, at their times after mixing.
[[nodiscard]] std::vector<Handling> folds_of(const formula::Bake& bake);

}  // namespace barm::forecast

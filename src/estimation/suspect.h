#pragma once
// Readings that cannot be right, or that say little: found before anything is learned from them.
#include <string>
#include <vector>

#include "estimation/batch.h"
#include "estimation/learn.h"
#include "estimation/readings.h"

namespace barm::estimation {

enum class Suspect {
  no_height,      ///< nothing was read of the rise
  one_height,     ///< a point is no line
  still,          ///< the sample has not moved for hours
  falling,        ///< lower than it began without having risen
  contradiction,  ///< two heights at one time that cannot both be right
  no_mark,        ///< the height at the start is not known
  mark_misread,   ///< found by learning: the start mark does not fit the rest
  scatter,        ///< found by learning: the readings lie about any dough the model knows
};

struct Suspicion {
  Suspect what;
  std::string words;  ///< what is wrong and what would mend it
  double gap = 0;     ///< [mm] by which heights contradict one another or fall
};

/// What the readings themselves show.
[[nodiscard]] std::vector<Suspicion> suspicions(const Readings& readings);

/// Where readings contradict one another, each may be off by as much as they differ: the range
/// stays wide whoever is right.
void widen(Batch& batch, const std::vector<Suspicion>& suspicions);

/// Whether some reading must be wrong: what is told of the dough then stands on sand.
[[nodiscard]] bool some_must_be_wrong(const std::vector<Suspicion>& suspicions);

/// What learning has shown besides.
[[nodiscard]] std::vector<Suspicion> suspicions(const Batch& batch,
                                                const Readings& readings,
                                                const Learned& learned);

}  // namespace barm::estimation

#pragma once
// Readings that cannot be right, or that say little: found before anything is learned from them.
#include <string>
#include <vector>

#include "estimation/dough_to_read.h"
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
  unsettled,      ///< the doughs imagined do not agree on what the readings say
};

struct Suspicion {
  Suspect what;
  std::string words;  ///< what is wrong and what would mend it
};

/// What the readings themselves show.
[[nodiscard]] std::vector<Suspicion> suspicions(const Readings& readings);

/// What is believed of readings that cannot be right (docs/model/estimation.md 5): two heights at
/// one time that contradict one another may each be off by as much as they differ; a sample that
/// fell, by as much as it fell; one that has not moved may be hardly alive. All of it grows from
/// nothing with what is wrong, so that no answer hangs on a hundredth of a millimetre.
void widen(DoughToRead& batch, const Readings& readings);

/// Whether some reading must be wrong: what is told of the dough then stands on sand.
[[nodiscard]] bool some_must_be_wrong(const std::vector<Suspicion>& suspicions);

/// What learning has shown besides.
[[nodiscard]] std::vector<Suspicion> suspicions(const DoughToRead& batch,
                                                const Readings& readings,
                                                const Learned& learned);

}  // namespace barm::estimation

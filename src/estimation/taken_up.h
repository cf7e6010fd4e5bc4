#pragma once
// Doughs that agree with what was read, alike likely, as the work of rescue takes them up.
#include <vector>

#include "estimation/learn.h"

namespace barm::estimation {

/// One dough of those that were learned.
struct TakenUp {
  Drawn dough;
  double worked =
      0;  ///< [h] of the model that it has behind it: the hours on the clock by its own pace
  double pace = 1;  ///< that it had at last: hours of the model in an hour on the clock
};

/// `count` doughs, each draw as often as its weight says (systematic resampling), as they stand
/// `now` hours after mixing. After the last reading a dough keeps the pace it had, but for the
/// doubt of the law itself (Pace::law).
[[nodiscard]] std::vector<TakenUp> taken_up(const DoughToRead& batch,
                                            const Readings& readings,
                                            const Learned& learned,
                                            const LearnOptions& options,
                                            Time now,
                                            std::size_t count);

}  // namespace barm::estimation

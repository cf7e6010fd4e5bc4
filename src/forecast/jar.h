#pragma once
// The sample in its jar: where its marks stand, and what a misreading costs.
#include <vector>

#include "base/result.h"
#include "forecast/ensemble.h"
#include "forecast/spread.h"

namespace barm::forecast {

struct JarMarks {
  formula::Jar jar;
  double target = 2;  ///< volume ratio of the bulk
  Spread ready;       ///< of the bulk
  Probability never;  ///< that the bulk gets there within the horizon
  Length start;       ///< height of the dough at mixing, levelled
  Range ratio;  ///< volume ratio of the sample when the bulk is ready; of the draws that get there
  Range minutes_per_mm;  ///< what misreading the ready mark by 1 mm moves; infinite where the
                         ///< sample no longer rises then
  Temperature sample_at_ready, bulk_at_ready;  ///< of the typical dough
  int draws = 0;

  /// Height at a ratio.
  [[nodiscard]] Length at(double ratio_) const { return start * ratio_; }
};

/// How much dough suits a jar: that it has risen to the ready mark, and a quarter more, below the
/// shoulder at 85 % of the height; 40 mm of dough where the height is not known. To 5 g, below.
[[nodiscard]] Mass suitable_dough(const formula::Jar& jar, double target);

/// How much dough stands up to a start mark in a jar.
[[nodiscard]] Mass dough_up_to(Length mark, const formula::Jar& jar);

/// Runs the bulk and the sample of every draw, each at its own temperatures, and looks where the
/// sample stands at the moment when its own bulk is ready. Errors: bad_input, no_convergence,
/// cancelled; cannot_be_met when fewer than a tenth of the bulks get there.
[[nodiscard]] Result<JarMarks> jar_marks(const formula::Bake& bake,
                                         const formula::Jar& jar,
                                         const Options& options);

}  // namespace barm::forecast

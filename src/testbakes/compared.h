#pragma once
// Lag, speed and peak of each jar, and how the doughs differ in them.
#include <optional>
#include <string>
#include <vector>

#include "testbakes/observed.h"

namespace barm::testbakes {

/// The rise of one jar as a Gompertz curve in Zwietering's form (docs/model/testbakes.md eq. 8),
///     R = 1 + A exp(-exp(mu e (lag - t) / A + 1)),
/// fitted to its looks up to the highest one. What few looks leave open is held near what is seen:
/// A at the highest look less 1, mu at the steepest stretch, lag where it has risen by a tenth.
struct Rise {
  double lag = 0;      ///< [h]
  double speed = 0;    ///< mu: steepest rise [volumes/h]
  double peak = 1;     ///< highest volume ratio seen
  bool risen = false;  ///< by a tenth at least; else lag and speed mean little
  bool peak_seen =
      false;  ///< it had stopped rising by the last look; else the peak is higher still
};

[[nodiscard]] Rise rise_of(const Watched& jar);

/// One dough against the control in one of these, all days together.
struct Contrast {
  std::size_t dough = 0;
  double difference = 0;     ///< dough minus control
  double low = 0, high = 0;  ///< simultaneous: all of all lists at once hold 9 times in 10
  double p = 1;              ///< of no difference, Holm's for all doughs of all lists

  [[nodiscard]] bool clear() const { return low > 0 || high < 0; }
};

/// A dough of which the jars do not show it, and what they show instead.
struct Unseen {
  std::size_t dough = 0;
  std::string words;
};

/// Lag [h], ln speed or peak of all doughs against one.
struct Comparison {
  std::string what;  ///< "lag", "speed", "peak"
  std::vector<Contrast> contrasts;
  std::vector<Unseen> unseen;
  double scatter = 0;  ///< sd of one dough as it was mixed
  int freedom = 0;     ///< degrees of freedom behind it
};

/// y = dough + day, by least squares; contrasts against `control`, with
///     se = s sqrt(c' (X'X)^-1 c),   interval -+ t_{f, 1 - 0.1/(2 k)} se   (Bonferroni),
///     p adjusted after Holm, k contrasts. A value further off than 3.5 sd counts as one that is
/// 3.5 sd off (Huber), so that a single runaway does not widen all.
/// `known_scatter`, if given, counts as `weight` more degrees of freedom: few jars alone judge
/// their scatter badly. Empty where nothing is left to judge by. Checked against: R lm and p.adjust
/// in tests/testbakes/compared_test.cpp.
[[nodiscard]] std::optional<Comparison> compared(const std::string& what,
                                                 const std::vector<double>& y,
                                                 const std::vector<std::size_t>& dough,
                                                 const std::vector<std::size_t>& day,
                                                 std::size_t control,
                                                 double known_scatter = 0,
                                                 int weight = 0);

/// Lag, speed (its ln) and peak of all doughs, against the plain one or else the first. A dough
/// counts once on each day, by the mean of its jars: three jars of one dough are not three doughs.
/// A peak cut off by the last look and a dough that never rose are named as unseen. One correction
/// over all lists. Checked against: tests/testbakes/alike_test.cpp.
[[nodiscard]] std::vector<Comparison> compare(const std::vector<Watched>& jars,
                                              std::size_t control);

}  // namespace barm::testbakes

#pragma once
// Lag, speed and peak of each jar, and how the doughs differ in them.
#include <optional>
#include <string>
#include <vector>

#include "testbakes/observed.h"

namespace barm::testbakes {

/// The rise of one jar as a Gompertz curve in Zwietering's form (docs/model/testbakes.md eq. 8),
///     R = 1 + A exp(-exp(mu e (lag - t) / A + 1)),
/// fitted to its looks up to the highest one.
struct Rise {
  double lag = 0;      ///< [h]
  double speed = 0;    ///< mu: steepest rise [volumes/h]
  double peak = 1;     ///< highest volume ratio seen
  bool risen = false;  ///< by a tenth at least; else lag and speed mean little
};

[[nodiscard]] Rise rise_of(const Watched& jar);

/// One dough against the control in one of these, all days together.
struct Contrast {
  std::size_t dough = 0;
  double difference = 0;     ///< dough minus control
  double low = 0, high = 0;  ///< simultaneous: all of a table at once hold 9 times in 10
  double p = 1;              ///< of no difference, Holm's for all doughs of the table
};

/// Lag [h], ln speed or peak of all doughs against one.
struct Comparison {
  std::string what;  ///< "lag", "speed", "peak"
  std::vector<Contrast> contrasts;
  double scatter = 0;  ///< sd of one jar
  int freedom = 0;     ///< degrees of freedom behind it
};

/// y = dough + day, by least squares; contrasts against `control`, with
///     se = s sqrt(c' (X'X)^-1 c),   interval -+ t_{f, 1 - 0.1/(2 k)} se   (Bonferroni),
///     p adjusted after Holm, k contrasts.
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

/// Lag, speed (its ln) and peak of all jars, against the plain dough or else the first.
[[nodiscard]] std::vector<Comparison> compare(const std::vector<Watched>& jars,
                                              std::size_t control);

}  // namespace barm::testbakes

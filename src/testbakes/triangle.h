#pragma once
// The triangle test of ISO 4120: three samples, two alike; which is the odd one? Who guesses is
// right in one of three.
#include <array>
#include <string>
#include <vector>

#include "units/fraction.h"

namespace barm::testbakes {

/// What a triangle test says.
struct TriangleResult {
  int tasters = 0;
  int right = 0;
  double p_value = 1;  ///< P(X >= right), X binomial(tasters, 1/3)
  int needed = 0;      ///< right answers from which guessing is unlikely (at alpha)
  bool can_tell = false;
  /// Share of people who can really tell, d = (3 p - 1) / 2 of the share p that is right; the
  /// interval from the exact one of Clopper & Pearson for p, at least 0.
  double tell = 0, tell_low = 0, tell_high = 1;
  std::string words;  ///< "12 of 30 right: no evidence that they can tell"
};

/// Range: 1 <= tasters <= 10000, 0 <= right <= tasters, 0 < alpha < 1; beyond it a contract is
/// broken. `level` is that of the interval. Source: ISO 4120 from memory; the numbers are exact
/// binomial. Checked against: tests/truth/triangle_test.cpp, tests/testbakes/triangle_test.cpp.
[[nodiscard]] TriangleResult triangle(int tasters,
                                      int right,
                                      double alpha = 0.05,
                                      double level = 0.9);

/// Least number of right answers with P(X >= x | guessing) <= alpha; tasters + 1 when none is.
[[nodiscard]] int right_needed(int tasters, double alpha);

/// Chance that so many tasters show it when a share `tell` of people can tell.
[[nodiscard]] double triangle_power(int tasters, double tell, double alpha);

/// Fewest tasters n >= 3 that show it with at least `power`. The power is saw-toothed in n, so a
/// few tasters more may do a little worse. 0 when over 5000 are needed.
[[nodiscard]] int tasters_needed(double tell, double power, double alpha);

/// One taster's tray, left to right: true where the second dough (B) lies.
using Tray = std::array<bool, 3>;

/// What one taster gets.
struct Serving {
  int taster = 1;
  Tray tray{};
  std::array<std::string, 3> label;  ///< three-digit codes, all different on one tray
  int odd = 1;                       ///< which of the three is odd, 1..3

  /// "ABB", …
  [[nodiscard]] std::string order() const;
};

/// A serving plan in which the six orders ABB, BAA, AAB, BBA, ABA, BAB come equally often (as
/// nearly as the number of tasters allows), in random order. The same seed gives the same plan.
[[nodiscard]] std::vector<Serving> serving_plan(int tasters, unsigned long long seed);

}  // namespace barm::testbakes

#pragma once
// How many doughs on how many days show a difference of a given size.
#include <vector>

#include "units/units.h"

namespace barm::testbakes {

/// Chance that a two-sided t test finds a difference in ln speed between two of `doughs` doughs,
/// each mixed `jars` times on each of `days` days; days are blocks and cancel, and every dough
/// helps to judge the scatter.
///
///     se = s sqrt(2 / (days jars)),  f = (doughs jars - 1) days - (doughs - 1) degrees of freedom,
///     power = P(|T| > t_{f, 1 - alpha/2}),  T noncentral t with delta = |difference| / se
///
/// s is the scatter between doughs of one bowl. 0 where no degree of freedom is left. Range:
/// scatter > 0. Checked against: R power.t.test and pt in tests/testbakes/doughs_needed_test.cpp.
[[nodiscard]] double chance_to_show(
    double difference, int days, int jars, double scatter, int doughs = 2, double alpha = 0.05);

/// One way to show it.
struct DoughsNeeded {
  int days = 1;
  int jars = 1;  ///< of each dough a day
  double chance = 0;
};

/// For 1 to `most_jars` jars a day, the fewest days with which the chance is at least `power`;
/// those that need more than `most_days` are left out. `difference` is the share of speed that is
/// lost, 0 < d < 1: ln(1 - d) is what is looked for.
[[nodiscard]] std::vector<DoughsNeeded> doughs_needed(double difference,
                                                      double scatter,
                                                      int doughs = 2,
                                                      double power = 0.8,
                                                      int most_days = 12,
                                                      int most_jars = 4);

}  // namespace barm::testbakes

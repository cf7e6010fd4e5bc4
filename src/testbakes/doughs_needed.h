#pragma once
// How many doughs on how many days show a difference of a given size.
#include <vector>

#include "units/units.h"

namespace barm::testbakes {

/// How ln speed scatters: between doughs of one recipe mixed anew on one day, and between jars
/// filled from one dough.
struct Scatter {
  double dough = 0, jar = 0;
};

/// As data/testbakes.toml has it.
[[nodiscard]] Scatter usual_scatter();

/// Chance that a two-sided t test finds a difference in ln speed between two of `doughs` doughs,
/// each mixed once on each of `days` days and put into `jars` jars; days are blocks and cancel, and
/// every dough helps to judge the scatter. Jars of one dough share what it is, so that more of them
/// sharpen its mean alone.
///
///     s^2 = dough^2 + jar^2 / jars,  se = s sqrt(2 / days),  f = (doughs - 1) (days - 1),
///     power = P(|T| > t_{f, 1 - alpha/2}),  T noncentral t with delta = |difference| / se
///
/// 0 where no degree of freedom is left. Range: some scatter. Checked against: R power.t.test and
/// pt in tests/testbakes/doughs_needed_test.cpp.
[[nodiscard]] double chance_to_show(double difference,
                                    int days,
                                    int jars,
                                    const Scatter& scatter,
                                    int doughs = 2,
                                    double alpha = 0.05);

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
                                                      const Scatter& scatter,
                                                      int doughs = 2,
                                                      double power = 0.8,
                                                      int most_days = 12,
                                                      int most_jars = 4);

}  // namespace barm::testbakes

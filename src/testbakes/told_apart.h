#pragma once
// Which causes a set of doughs cannot tell apart, before any flour is wasted.
//
// X has a line for each dough and a column for each cause: ln(1 + z / z_most), centred and scaled.
// Causes whose columns follow from one another are aliased: X v = 0 for a v that names them. Short
// of that, the variance inflation of a cause is VIF_j = [R^-1]_jj, R the columns' correlations: how
// much wider its interval is than in doughs where it moves alone.
#include <string>
#include <vector>

#include "testbakes/causes.h"

namespace barm::testbakes {

/// How well the doughs tell a cause from the others.
enum class Telling {
  apart,       ///< moves on its own
  poorly,      ///< variance inflation above 5
  hardly,      ///< above 10
  not_at_all,  ///< follows from others in these doughs
  not_varied   ///< every dough holds the same
};

struct CauseTold {
  Cause cause = Cause::alcohol;
  Telling telling = Telling::apart;
  double variance_inflation = 1;  ///< infinite when it follows from others
  std::vector<Cause> with;        ///< those it cannot be told from
};

struct ToldApart {
  std::vector<Cause> causes;  ///< asked about
  int rank = 0;
  std::vector<CauseTold> told;       ///< as causes
  std::vector<std::string> words;    ///< plain sentences
  std::vector<std::string> working;  ///< the table, rank and variance inflation

  /// Whether this cause can be named by these doughs at all.
  [[nodiscard]] bool can_name(Cause cause) const;
};

/// `doses` one line a dough, `names` of the doughs for the working.
/// Checked against: tests/testbakes/told_apart_test.cpp.
[[nodiscard]] ToldApart told_apart(const std::vector<Doses>& doses,
                                   const std::vector<Cause>& causes,
                                   const std::vector<std::string>& names = {});

}  // namespace barm::testbakes

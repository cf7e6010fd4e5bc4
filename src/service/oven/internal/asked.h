#pragma once
// What an oven is asked: the loaf that a dough makes, the oven as it is used, for how long.
#include <string>
#include <vector>

#include "base/result.h"
#include "forecast/ensemble.h"
#include "formula/bake.h"
#include "oven/draws.h"

namespace barm::service::internal {

struct OvenAsked {
  oven::Loaf loaf;
  oven::Oven oven;
  oven::LearnedOven known;
  Time lasts;
  bool typed = false;    ///< somebody said how long; else until the typical core is done
  bool counted = false;  ///< it is known how many go in at once
  int loads = 1;         ///< one after the other, where the loaves do not all fit
  Temperature room;      ///< where it cools
  std::string with;      ///< what is known of the house's oven; empty: nothing
  std::vector<std::string> assumed;
};

/// `said` goes before what the bake's file says, and that before what is known of the house's oven.
/// Errors: those of oven::check(); bad_input for an oven in which the
/// loaf is never done.
[[nodiscard]] Result<OvenAsked> asked_of(const forecast::MiddleDough& dough,
                                         const formula::OvenTable& said,
                                         const formula::Bake& bake);

/// The loaf that a dough makes.
[[nodiscard]] oven::Loaf loaf_of(const forecast::MiddleDough& dough,
                                 const formula::OvenTable& table,
                                 std::vector<std::string>& assumed);

}  // namespace barm::service::internal

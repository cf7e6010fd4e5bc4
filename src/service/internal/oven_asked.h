#pragma once
// What an oven is asked: the loaf that a dough makes, the oven as it is used, for how long.
#include <string>
#include <vector>

#include "base/result.h"
#include "forecast/ensemble.h"
#include "formula/oven_table.h"
#include "oven/draws.h"

namespace barm::service::internal {

struct OvenAsked {
  oven::Loaf loaf;
  oven::Oven oven;
  oven::Known known;
  Time lasts;
  bool typed = false;  ///< somebody said how long; else until the typical core is done
  Temperature room;    ///< where it cools
  std::vector<std::string> assumed;
};

/// `said` goes before `file`. Errors: those of oven::check(); bad_input for an oven in which the
/// loaf is never done.
[[nodiscard]] Result<OvenAsked> asked_of(const forecast::MiddleDough& dough,
                                         const formula::OvenTable& said,
                                         const formula::OvenTable& file);

}  // namespace barm::service::internal

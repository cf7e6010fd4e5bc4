#pragma once
// A probe's file: a time and a temperature a row.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "heat/track.h"

namespace barm::heat {

/// What a probe may have read, to know a wrong scale by.
struct ProbeLimits {
  double least = -30, most = 110;  ///< [C]
  std::string_view of = "dough";   ///< "core", "air"
};

/// Reads a CSV whose first row names its columns: "minutes" (or "hours", "seconds") and "celsius",
/// in any order among others; comma or semicolon between. Rows of '#' are remarks. Errors:
/// bad_input with file:line (no such column, a column in °F, an empty cell, a time that does not
/// ascend, a gap of more than three times the usual one and 10 min, a temperature outside the
/// limits, fewer than three rows).
[[nodiscard]] Result<std::vector<ProbeReading>> parse_probe(std::string_view text,
                                                            const std::string& file,
                                                            const ProbeLimits& limits = {});

/// Where two readings in a row or more are missing, and what was made of it: "Nothing was read from
/// 12 to 16 min. …". Empty where nothing is missing.
[[nodiscard]] std::string gaps_in_words(const std::vector<ProbeReading>& readings);

}  // namespace barm::heat

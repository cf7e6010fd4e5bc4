#pragma once
// What the jars of a test bake did.
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "testbakes/plan.h"
#include "testbakes/test_bake.h"

namespace barm::testbakes {

/// One look at a jar.
struct Look {
  double hours = 0;  ///< after mixing
  double ratio = 1;  ///< height over the height at the first mark
};

/// One jar with its looks, ascending in time; a look at mixing itself is not among them.
struct Watched {
  std::size_t day = 0, dough = 0;
  int repeat = 1;
  std::vector<Look> looks;
  Length start = 60.0 * millimetre;  ///< height at the first mark
};

/// Reads the readings of all jars: a first line of names, then a line a look, with commas. Columns:
/// `day` (as in the test bake file; may be left out when there is one), `label` (of the plan) or
/// `dough` (its name, then `jar` 1, 2, … when there are several), `hours` after mixing, and
/// `height_mm` or `ratio`. A height within 20 minutes of mixing is the first mark. Errors:
/// bad_input with file and line, not_found.
[[nodiscard]] Result<std::vector<Watched>> read_observed(const TestBake& test);

/// The same from text; `file` names it in errors.
[[nodiscard]] Result<std::vector<Watched>> parse_observed(const TestBake& test,
                                                          std::string_view text,
                                                          const std::string& file);

}  // namespace barm::testbakes

#pragma once
#include <string>
#include <vector>

#include "units/fraction.h"
#include "units/units.h"

namespace barm::formula::internal {

/// "706 g", "3.2 g", "0.45 g": as many digits as a scale shows.
[[nodiscard]] std::string grams(Mass mass);

/// "712 mL".
[[nodiscard]] std::string millilitres(Volume volume);

/// "11.5 % vol", "9.2 %": without a needless ".0".
[[nodiscard]] std::string percent(double fraction);

/// "a", "a and b", "a, b and c".
[[nodiscard]] std::string listed(const std::vector<std::string>& words);

}  // namespace barm::formula::internal

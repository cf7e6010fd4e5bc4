#pragma once
#include <string_view>

#include "base/result.h"
#include "units/fraction.h"
#include "units/temperature.h"

namespace barm::formula {

/// A quantity as a baker writes it: "900 g", "1.5 tsp", "12 oz", "0,75 L". Decimal comma or point.
struct WrittenAmount {
  enum class Kind { mass, volume, percent, bare } kind = Kind::bare;
  double value = 0;        ///< SI: kg, m3; a fraction for percent
  bool of_liquid = false;  ///< "50 % of the liquid"
};

[[nodiscard]] Result<WrittenAmount> parse_amount(std::string_view text);
[[nodiscard]] Result<Temperature> parse_temperature(std::string_view text);
[[nodiscard]] Result<Time> parse_time(std::string_view text);

}  // namespace barm::formula

#pragma once
#include <string>
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
  bool rest = false;       ///< "rest of the liquid"; value is 0
  bool by_volume = false;  ///< "11.5 % vol": a strength, not a share of anything in a bowl
};

/// A number and the words behind it, e.g. 11.5 and "% vol".
struct NumberAndUnit {
  double value = 0;
  std::string unit;  ///< without blanks at its ends; may be empty
};

/// Splits a written quantity at the end of its number. A comma is a decimal comma; before exactly
/// three digits it could also part thousands ("1,200 g"), which is refused unless a 0 stands
/// before it. Errors: bad_input (no number at the front, two separators, a sign other than -).
[[nodiscard]] Result<NumberAndUnit> parse_number(std::string_view text);

/// Errors: bad_input (no number, unknown unit, a cup or another measure that is not one size).
[[nodiscard]] Result<WrittenAmount> parse_amount(std::string_view text);

/// "24 C", "24 °C", "75 F". Errors: bad_input (no number, no scale).
[[nodiscard]] Result<Temperature> parse_temperature(std::string_view text);

/// "90 min", "1.5 h", "1 h 30 min", "2 days". Errors: bad_input (no number, no unit, negative).
[[nodiscard]] Result<Time> parse_time(std::string_view text);

/// "70 mm", "7 cm", "0.3 m", "2.5 in". Errors: bad_input (no number, no unit, not above zero).
[[nodiscard]] Result<Length> parse_length(std::string_view text);

/// Volume over volume at the start: "doubled" 2, "tripled" 3, "by half" 1.5, "1.8 x" or "1.8".
/// Errors: bad_input (not one of these).
[[nodiscard]] Result<double> parse_rise(std::string_view text);

}  // namespace barm::formula

#pragma once
// How a declared value is rounded. A half is rounded up; a value within a billionth of a half
// counts as one, so that 0.35 as a computer holds it is still a half.
#include <string>

#include "shop/nutrition.h"

namespace barm::shop {

/// As the Commission's guidance of December 2012 has it:
///
///     energy                 1 kJ, 1 kcal
///     fat, carbohydrate,     >= 10 g: 1 g; above 0.5 g: 0.1 g; else "<0.5"
///     sugars, fibre, protein
///     saturates              >= 10 g: 1 g; above 0.1 g: 0.1 g; else "<0.1"
///     salt                   >= 1 g: 0.1 g; above 0.0125 g: 0.01 g; else "<0.01"
///
/// Nothing at all is "0"; what rounds up to 10 g, or 1 g of salt, is said as from there on. Source:
/// eu_rounding. Checked against: tests/truth/label_rounding_test.cpp.
[[nodiscard]] std::string eu_grams(Nutrient nutrient, double grams);

/// A whole number: energy.
[[nodiscard]] std::string whole(double value);

/// US calories of a serving: under 5 "0", to 50 by 5, above by 10.
[[nodiscard]] std::string us_calories_said(double calories);

/// US grams of a serving: fats under 0.5 "0", under 5 by 0.5, else by 1; carbohydrate, fiber,
/// sugars and protein under 0.5 "0", under 1 "less than 1", else by 1.
[[nodiscard]] std::string us_grams(Nutrient nutrient, double grams);

/// US milligrams of sodium of a serving: under 5 "0", to 140 by 5, above by 10.
[[nodiscard]] std::string us_sodium(double milligrams);

/// US milligrams of cholesterol of a serving: under 2 "0", to 5 "less than 5", above by 5.
[[nodiscard]] std::string us_cholesterol(double milligrams);

/// US milligrams of calcium or potassium of a serving, by 10.
[[nodiscard]] std::string us_mineral(double milligrams);

/// US micrograms of vitamin D or milligrams of iron of a serving, by a tenth.
[[nodiscard]] std::string us_vitamin(double amount);

/// US percentage of the Daily Value: whole.
[[nodiscard]] std::string us_daily(double percent);

/// The same of a vitamin or mineral: under 2 "0", to 10 by 2, to 50 by 5, above by 10.
[[nodiscard]] std::string us_daily_of_mineral(double percent);

/// A percentage on an ingredient: whole, under 5 % to the half.
[[nodiscard]] std::string quantity_percent(double percent);

}  // namespace barm::shop

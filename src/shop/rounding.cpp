#include "shop/rounding.h"

#include <fmt/format.h>

#include <cmath>

namespace barm::shop {

namespace {

constexpr double a_billionth = 1e-9;

/// Whole multiples of a step, halves up.
double steps(double value, double step) { return std::floor(value / step + 0.5 + a_billionth); }

std::string to(double value, double step, int decimals) {
  return fmt::format("{:.{}f}", steps(value, step) * step, decimals);
}

bool at_most(double value, double limit) { return value <= limit + a_billionth; }

bool under(double value, double limit) { return value < limit - a_billionth; }

struct LeastSaid {
  double coarse;  ///< from here on by the coarse step
  double step, fine;
  int coarse_decimals, fine_decimals;
  double none;  ///< up to here it counts as next to nothing
  const char* said;
};

LeastSaid how(Nutrient nutrient) {
  if (nutrient == Nutrient::salt) return {1, 0.1, 0.01, 1, 2, 0.0125, "<0.01"};
  if (nutrient == Nutrient::saturates) return {10, 1, 0.1, 0, 1, 0.1, "<0.1"};
  return {10, 1, 0.1, 0, 1, 0.5, "<0.5"};
}

}  // namespace

std::string eu_grams(Nutrient nutrient, double grams) {
  const LeastSaid rule = how(nutrient);
  if (at_most(grams, 0)) return "0";
  if (at_most(grams, rule.none)) return rule.said;
  // What rounds up to the bound is said as from the bound on: 9.96 g is "10 g", not "10.0 g".
  const double fine = steps(grams, rule.fine) * rule.fine;
  if (under(fine, rule.coarse)) return to(grams, rule.fine, rule.fine_decimals);
  return to(grams, rule.step, rule.coarse_decimals);
}

std::string whole(double value) { return to(value, 1, 0); }

std::string us_calories_said(double calories) {
  constexpr double none = 5;
  constexpr double many = 50;
  if (under(calories, none)) return "0";
  return at_most(calories, many) ? to(calories, 5, 0) : to(calories, 10, 0);
}

std::string us_grams(Nutrient nutrient, double grams) {
  constexpr double none = 0.5;
  constexpr double some = 5;
  if (under(grams, none)) return "0";
  if (nutrient == Nutrient::fat || nutrient == Nutrient::saturates) {
    if (!under(grams, some)) return to(grams, 1, 0);
    const std::string half = to(grams, 0.5, 1);
    return half.ends_with(".0") ? half.substr(0, half.size() - 2) : half;
  }
  return under(grams, 1) ? "less than 1" : to(grams, 1, 0);
}

std::string us_sodium(double milligrams) {
  constexpr double none = 5;
  constexpr double many = 140;
  if (under(milligrams, none)) return "0";
  return at_most(milligrams, many) ? to(milligrams, 5, 0) : to(milligrams, 10, 0);
}

std::string us_cholesterol(double milligrams) {
  constexpr double none = 2;
  constexpr double some = 5;
  if (under(milligrams, none)) return "0";
  return at_most(milligrams, some) ? "less than 5" : to(milligrams, 5, 0);
}

std::string us_mineral(double milligrams) { return to(milligrams, 10, 0); }

std::string us_vitamin(double amount) {
  const std::string said = to(amount, 0.1, 1);
  return said.ends_with(".0") ? said.substr(0, said.size() - 2) : said;
}

std::string us_daily(double percent) { return whole(percent); }

std::string us_daily_of_mineral(double percent) {
  constexpr double none = 2;
  constexpr double some = 10;
  constexpr double many = 50;
  if (under(percent, none)) return "0";
  if (at_most(percent, some)) return to(percent, 2, 0);
  return at_most(percent, many) ? to(percent, 5, 0) : to(percent, 10, 0);
}

std::string quantity_percent(double percent) {
  constexpr double small = 5;
  if (!under(percent, small)) return to(percent, 1, 0);
  const std::string half = to(percent, 0.5, 1);
  return half.ends_with(".0") ? half.substr(0, half.size() - 2) : half;
}

}  // namespace barm::shop

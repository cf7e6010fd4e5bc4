#include "shop/nutrition_table.h"

#include <algorithm>
#include <optional>

#include "generated/constants.h"
#include "numerics/quantiles.h"
#include "shop/rounding.h"

namespace barm::shop {

namespace {

NutritionLine energy_line(const Loaves& loaves,
                          double portion,
                          const char* unit,
                          double (*energy)(const Nutrients&)) {
  NutritionLine line;
  line.name = "energy";
  line.unit = unit;
  line.in_100_g = loaves.of([&](const Nutrients& n) { return energy(n) / (10 * n.mass); });
  line.said_100_g = whole(line.in_100_g.middle);
  if (portion > 0) line.said_portion = whole(line.in_100_g.middle * portion / 100);
  return line;
}

NutritionLine grams_line(const Loaves& loaves,
                         double portion,
                         const char* name,
                         Nutrient nutrient) {
  NutritionLine line;
  line.name = name;
  line.unit = "g";
  line.in_100_g = loaves.of([&](const Nutrients& n) { return n.in_100_g(nutrient); });
  line.said_100_g = eu_grams(nutrient, line.in_100_g.middle);
  if (portion > 0) line.said_portion = eu_grams(nutrient, line.in_100_g.middle * portion / 100);
  line.indent = std::string_view(name).starts_with("of which") ? 1 : 0;
  return line;
}

// --- the United States ---

namespace daily = constants::daily_values;

constexpr double mg_in_gram = 1000;

/// The line of a nutrient counted in grams, `per_day` of which are 100 % of the Daily Value; zero:
/// it has none that must stand there.
NutritionLine us_line(const Loaves& loaves,
                      double portion,
                      const char* name,
                      Nutrient nutrient,
                      Mass per_day,
                      int indent = 0) {
  NutritionLine line = grams_line(loaves, portion, name, nutrient);
  const double grams = line.in_100_g.middle * portion / 100;
  line.said_100_g = us_grams(nutrient, line.in_100_g.middle);
  line.said_portion = us_grams(nutrient, grams);
  if (per_day.si() > 0) line.daily_value = us_daily(100 * grams / per_day.in(gram));
  line.indent = indent;
  return line;
}

double sodium_mg(const Nutrients& n) {
  return mg_in_gram * n.in_100_g(Nutrient::salt) /
         constants::label_units::salt_per_sodium.value.si();
}

NutritionLine sodium_line(const Loaves& loaves, double portion) {
  NutritionLine line;
  line.name = "Sodium";
  line.unit = "mg";
  line.in_100_g = loaves.of(sodium_mg);
  const double milligrams = line.in_100_g.middle * portion / 100;
  line.said_100_g = us_sodium(line.in_100_g.middle);
  line.said_portion = us_sodium(milligrams);
  line.daily_value = us_daily(100 * milligrams / daily::sodium.value.in(milligram));
  return line;
}

NutritionLine not_known(const char* name, int indent = 0) {
  NutritionLine line;
  line.name = name;
  line.known = false;
  line.said_100_g = line.said_portion = "not known";
  line.indent = indent;
  return line;
}

using Rounded = std::string (*)(double);

/// A line of what was measured in 100 g; not known where it was not.
NutritionLine measured_line(const std::optional<double>& in_100_g,
                            double portion,
                            const char* name,
                            const char* unit,
                            Rounded rounded,
                            double per_day,
                            Rounded daily_said,
                            int indent = 0) {
  if (!in_100_g) return not_known(name, indent);
  NutritionLine line;
  line.name = name;
  line.unit = unit;
  line.in_100_g = {*in_100_g, *in_100_g, *in_100_g};
  line.said_100_g = rounded(*in_100_g);
  const double amount = *in_100_g * portion / 100;
  line.said_portion = rounded(amount);
  if (per_day > 0) line.daily_value = daily_said(100 * amount / per_day);
  line.indent = indent;
  return line;
}

std::string us_fat(double grams) { return us_grams(Nutrient::fat, grams); }

NutritionLine cholesterol_line(const KnownInAmerica& known, double portion) {
  std::optional<double> in_100_g = known.fields.cholesterol;
  if (!in_100_g && known.no_cholesterol) in_100_g = 0;
  return measured_line(in_100_g,
                       portion,
                       "Cholesterol",
                       "mg",
                       us_cholesterol,
                       daily::cholesterol.value.in(milligram),
                       us_daily);
}

NutritionLine mineral_line(const Loaves& loaves,
                           double portion,
                           const char* name,
                           Nutrient mineral,
                           Mass per_day,
                           bool known) {
  if (!known) return not_known(name);
  NutritionLine line;
  line.name = name;
  line.unit = "mg";
  line.in_100_g = loaves.of([&](const Nutrients& n) { return mg_in_gram * n.in_100_g(mineral); });
  const double milligrams = line.in_100_g.middle * portion / 100;
  line.said_100_g = us_mineral(line.in_100_g.middle);
  line.said_portion = us_mineral(milligrams);
  line.daily_value = us_daily_of_mineral(100 * milligrams / per_day.in(milligram));
  return line;
}

}  // namespace

Ranged Loaves::of(const std::function<double(const Nutrients&)>& value,
                  double low,
                  double high) const {
  const double middle = value(book);
  std::vector<double> drawn;
  drawn.reserve(draws.size());
  for (const Nutrients& one : draws) drawn.push_back(value(one));
  if (drawn.empty()) return {middle, middle, middle};
  const auto sorted = numerics::sorted(std::move(drawn));
  return {middle,
          std::min(middle, numerics::quantile(sorted, low)),
          std::max(middle, numerics::quantile(sorted, high))};
}

std::vector<NutritionLine> eu_table(const Loaves& loaves, double portion) {
  return {energy_line(loaves, portion, "kJ", kilojoules),
          energy_line(loaves, portion, "kcal", kilocalories),
          grams_line(loaves, portion, "fat", Nutrient::fat),
          grams_line(loaves, portion, "of which saturates", Nutrient::saturates),
          grams_line(loaves, portion, "carbohydrate", Nutrient::carbohydrate),
          grams_line(loaves, portion, "of which sugars", Nutrient::sugars),
          grams_line(loaves, portion, "fibre", Nutrient::fibre),
          grams_line(loaves, portion, "protein", Nutrient::protein),
          grams_line(loaves, portion, "salt", Nutrient::salt)};
}

namespace {

std::vector<NutritionLine> us_lines(const Loaves& loaves,
                                    double portion,
                                    const KnownInAmerica& known) {
  constexpr double micrograms_in_milligram = 1000;
  const formula::LabelFields& fields = known.fields;
  NutritionLine calories = energy_line(loaves, portion, "", us_calories);
  calories.name = "Calories";
  calories.said_100_g = us_calories_said(calories.in_100_g.middle);
  calories.said_portion = us_calories_said(calories.in_100_g.middle * portion / 100);
  const auto grams = [&](const char* name, Nutrient nutrient, Mass per_day, int indent) {
    return us_line(loaves, portion, name, nutrient, per_day, indent);
  };
  const auto mineral = [&](const char* name, Nutrient nutrient, Mass per_day, bool is_known) {
    return mineral_line(loaves, portion, name, nutrient, per_day, is_known);
  };
  return {calories,
          grams("Total Fat", Nutrient::fat, daily::fat.value, 0),
          grams("Saturated Fat", Nutrient::saturates, daily::saturates.value, 1),
          measured_line(fields.trans_fat, portion, "Trans Fat", "g", us_fat, 0, us_daily, 1),
          cholesterol_line(known, portion),
          sodium_line(loaves, portion),
          grams("Total Carbohydrate", Nutrient::carbohydrate, daily::carbohydrate.value, 0),
          grams("Dietary Fiber", Nutrient::fibre, daily::fibre.value, 1),
          grams("Total Sugars", Nutrient::sugars, Mass(), 1),
          grams("Includes Added Sugars", Nutrient::added_sugars, daily::added_sugars.value, 2),
          grams("Protein", Nutrient::protein, Mass(), 0),
          measured_line(fields.vitamin_d,
                        portion,
                        "Vitamin D",
                        "mcg",
                        us_vitamin,
                        micrograms_in_milligram * daily::vitamin_d.value.in(milligram),
                        us_daily_of_mineral),
          mineral("Calcium", Nutrient::calcium, daily::calcium.value, known.calcium),
          measured_line(fields.iron,
                        portion,
                        "Iron",
                        "mg",
                        us_vitamin,
                        daily::iron.value.in(milligram),
                        us_daily_of_mineral),
          mineral("Potassium", Nutrient::potassium, daily::potassium.value, known.potassium)};
}

}  // namespace

std::vector<NutritionLine> us_table(const Loaves& loaves,
                                    double portion,
                                    double whole,
                                    const KnownInAmerica& known) {
  std::vector<NutritionLine> lines = us_lines(loaves, portion, known);
  if (whole <= 0) return lines;
  const std::vector<NutritionLine> of_whole = us_lines(loaves, whole, known);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    lines[i].said_whole = of_whole[i].said_portion;
    lines[i].daily_whole = of_whole[i].daily_value;
  }
  return lines;
}

}  // namespace barm::shop

// Rounding of declared values. European Union: Commission guidance on tolerances, December 2012, as
// a food laboratory summarises it. United States: NLEA inspection guide, attachment 7; the middle
// steps are from memory (21 CFR 101.9(c)).
#include <gtest/gtest.h>

#include <cmath>

#include "generated/constants.h"
#include "generated/tables.h"
#include "shop/rounding.h"
#include "support/validation.h"

namespace barm::shop {

namespace {

void note(const std::string& what, const std::string& source, std::size_t rows, int wrong) {
  test::record("label",
               what + ", " + std::to_string(rows) + " values: how many differ",
               source,
               "0",
               wrong,
               "values",
               wrong == 0);
}

TEST(EuropeanRounding, FollowsTheGuidance) {
  struct Row {
    Nutrient nutrient;
    double grams;
    const char* said;
  };

  constexpr Row rows[] = {
      {Nutrient::fat, 10, "10"},
      {Nutrient::fat, 12.5, "13"},
      {Nutrient::fat, 12.49, "12"},
      {Nutrient::fat, 9.96, "10"},
      {Nutrient::carbohydrate, 44.6, "45"},
      {Nutrient::sugars, 2.35, "2.4"},
      {Nutrient::sugars, 0.51, "0.5"},
      {Nutrient::sugars, 0.5, "<0.5"},
      {Nutrient::fibre, 0.3, "<0.5"},
      {Nutrient::protein, 0, "0"},
      {Nutrient::protein, 8.449, "8.4"},
      {Nutrient::saturates, 0.11, "0.1"},
      {Nutrient::saturates, 0.1, "<0.1"},
      {Nutrient::saturates, 10.4, "10"},
      {Nutrient::salt, 1, "1.0"},
      {Nutrient::salt, 1.25, "1.3"},
      {Nutrient::salt, 0.994, "0.99"},
      {Nutrient::salt, 0.0126, "0.01"},
      {Nutrient::salt, 0.0125, "<0.01"},
  };
  int wrong = 0;
  for (const Row& row : rows) {
    EXPECT_EQ(eu_grams(row.nutrient, row.grams), row.said) << row.grams;
    wrong += eu_grams(row.nutrient, row.grams) == row.said ? 0 : 1;
  }
  EXPECT_EQ(whole(974.5), "975");
  EXPECT_EQ(whole(974.49), "974");
  note("rounding, European Union", "Commission guidance, December 2012", 19, wrong);
}

TEST(AmericanRounding, FollowsTheInspectionGuide) {
  struct Row {
    std::string ours;
    const char* said;
  };

  const Row rows[] = {
      {us_calories_said(4.9), "0"},
      {us_calories_said(5), "5"},
      {us_calories_said(47), "45"},
      {us_calories_said(48), "50"},
      {us_calories_said(50), "50"},
      {us_calories_said(54), "50"},
      {us_calories_said(115), "120"},
      {us_grams(Nutrient::fat, 0.49), "0"},
      {us_grams(Nutrient::fat, 0.5), "0.5"},
      {us_grams(Nutrient::fat, 1.2), "1"},
      {us_grams(Nutrient::fat, 4.8), "5"},
      {us_grams(Nutrient::fat, 5.4), "5"},
      {us_grams(Nutrient::fibre, 0.4), "0"},
      {us_grams(Nutrient::fibre, 0.8), "less than 1"},
      {us_grams(Nutrient::protein, 4.2), "4"},
      {us_sodium(4.9), "0"},
      {us_sodium(138), "140"},
      {us_sodium(141), "140"},
      {us_sodium(246), "250"},
      {us_cholesterol(1.9), "0"},
      {us_cholesterol(2), "less than 5"},
      {us_cholesterol(5.1), "5"},
      {us_cholesterol(13), "15"},
      {us_mineral(28.8), "30"},
      {us_mineral(264), "260"},
      {us_daily(10.4), "10"},
      {us_daily_of_mineral(1.9), "0"},
      {us_daily_of_mineral(2), "2"},
      {us_daily_of_mineral(5.1), "6"},
      {us_daily_of_mineral(10), "10"},
      {us_daily_of_mineral(13), "15"},
      {us_daily_of_mineral(52), "50"},
  };
  int wrong = 0;
  for (const Row& row : rows) {
    EXPECT_EQ(row.ours, row.said);
    wrong += row.ours == row.said ? 0 : 1;
  }
  note("rounding, United States", "NLEA inspection guide; 21 CFR 101.9(c)", std::size(rows), wrong);
}

/// A gram of each in a kilogram: its energy by our constants against
/// data/tables/energy_factors.csv.
TEST(EnergyFactors, AreThoseOfAnnexFourteen) {
  const auto factor = [](std::string_view name, bool kilojoule) {
    for (const auto& row : tables::energy_factors) {
      const bool eu = row.system.find("Annex XIV") != std::string_view::npos;
      if (eu && row.nutrient == name)
        return kilojoule ? row.kj_per_g : std::stod(std::string(row.kcal_per_g));
    }
    ADD_FAILURE() << name;
    return 0.0;
  };
  const std::pair<Nutrient, const char*> rows[] = {
      {Nutrient::carbohydrate, "carbohydrate (except polyols)"},
      {Nutrient::protein, "protein"},
      {Nutrient::fat, "fat"},
      {Nutrient::alcohol, "alcohol (ethanol)"},
      {Nutrient::acids, "organic acid"},
      {Nutrient::fibre, "fibre"}};
  for (const auto& [nutrient, name] : rows) {
    Nutrients one;
    one.mass = 1;
    one[nutrient] = 0.001;
    EXPECT_NEAR(kilojoules(one), factor(name, true), 1e-9) << name;
    EXPECT_NEAR(kilocalories(one), factor(name, false), 1e-9) << name;
    test::record("label",
                 std::string("energy of a gram of ") + name,
                 "Reg. (EU) 1169/2011, Annex XIV",
                 std::to_string(static_cast<int>(factor(name, true))),
                 kilojoules(one),
                 "kJ",
                 std::abs(kilojoules(one) - factor(name, true)) < 1e-9);
  }
  Nutrients polyol;
  polyol.mass = 1;
  polyol[Nutrient::carbohydrate] = polyol[Nutrient::polyols] = 0.001;
  EXPECT_NEAR(kilojoules(polyol), factor("polyols", true), 1e-9);
  EXPECT_NEAR(kilocalories(polyol), factor("polyols", false), 1e-9);
}

}  // namespace

}  // namespace barm::shop

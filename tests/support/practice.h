#pragma once
// The rows of practice: what bakers expect of known doughs, with the ranges they would give. The
// truth test holds the model to them, the study of the day-one prior learns from them. Sources: the
// words of data/sources.toml.
#include <fmt/format.h>

#include <stdexcept>
#include <string>
#include <string_view>

#include "forecast/levain.h"
#include "formula/read.h"
#include "larder/larder.h"

namespace barm::test {

/// `measured`: how long plain doughs and levains take and how sour levains get, which others have
/// measured (data/evidence/), and what the cold does to yeast, of which growth and fermentation
/// have been measured (salvado2011, phisalaphong2006). The model is held to such a row, but the
/// prior does not learn from what is believed where something better is known.
struct PracticeRow {
  std::string_view what;
  std::string_view basis;
  double least, most;
  std::string_view unit;
  bool measured = false;
};

inline constexpr std::string_view practice = "common practice, no source";

inline constexpr PracticeRow practice_rows[] = {
    {"bacteria at 40 g/L salt", "ganzle1998", 0, 0.2, "of full speed"},
    {"yeast at 25 g/L salt", "trivellin2024", 0.49, 1.02, "of full speed"},
    {"yeast at 80 g/L salt", "trivellin2024", 0.28, 1.19, "of full speed"},
    {"yeast at 45 g/L ethanol", "trivellin2024", 0.52, 1.26, "of full speed"},
    {"yeast at 90 g/L ethanol", "trivellin2024", 0, 0.39, "of full speed"},
    {"plain dough, 10 % stiff levain, 24 C: doubled", practice, 8, 12, "h", true},
    {"plain dough: largest volume", practice, 2.8, 3.5, "times"},
    {"plain dough: at its peak", practice, 12, 16, "h", true},
    {"plain dough: at 24 h", practice, 1.7, 2.3, "times"},
    {"plain dough: at 36 h", practice, 1, 1.7, "times"},
    {"20 % levain, 24 C: doubled", practice, 6.5, 9.5, "h", true},
    {"10 % levain, 18 C over 24 C", practice, 1.8, 2.5, "times"},
    {"10 % levain, 27 C: doubled", practice, 7, 10, "h", true},
    {"salt 0 %: slower than the step before", practice, 0.3, 12, "h"},
    {"salt 2 %: slower than the step before", practice, 0.3, 12, "h"},
    {"salt 3 %: slower than the step before", practice, 0.3, 12, "h"},
    {"salt 4 %: slower than the step before", practice, 0.3, 12, "h"},
    {"stiff levain fed 1:2:1, 26 C: tripled", practice, 5, 9, "h", true},
    {"liquid levain fed 1:1:1, 26 C: largest volume", practice, 2, 2.7, "times"},
    {"liquid levain fed 1:1:1, 26 C: at its peak", practice, 4, 7, "h", true},
    {"liquid levain at 14 h: pH", "sourdough_counts", 3.7, 4.0, "", true},
    {"liquid levain at 14 h: bacteria", "sourdough_counts", 9.2, 9.75, "log CFU/g", true},
    {"liquid levain at 14 h: yeast", "sourdough_counts", 7.0, 8.1, "log CFU/g", true},
    {"all wine of 12 % vol, 24 C: risen by 24 h", practice, 1, 1.1, "times"},
    {"all wine of 12 % vol, 24 C: risen by a fifth", practice, 30, 60, "h"},
    {"the same at 28 C: hardly sooner", "derived", 0.85, 1.3, "times"},
    {"spirit dough of the same alcohol against wine: a fifth", practice, 0.67, 1.5, "times"},
    {"all liquid of 5 % vol: slower than plain", practice, 1.15, 1.6, "times"},
    {"thinned to 4 % vol: slower than plain", practice, 1, 1.5, "times"},
    {"thinned to 4 % vol: rises fully", practice, 2.5, 4.5, "times"},
    {"all liquid of 18 % vol: largest volume in a week", practice, 1, 1.1, "times"},
    {"pickle brine with 1 % acetic acid: risen by 24 h", practice, 1, 1.3, "times"},
    {"plain dough at 4 C: risen in 7 days", practice, 1, 1.1, "times", true},
    {"plain dough at 8 C: risen by a fifth", practice, 3, 5, "days", true},
    {"2 % fresh yeast, 27 C: doubled", practice, 55, 90, "min", true},
    {"10 % sugar on flour: gas in the first hour", "remembered", 0.65, 0.85, "of unsugared"},
    {"20 % sugar on flour: gas in the first hour", "remembered", 0.35, 0.6, "of unsugared"},
    {"starting pH of an all-wine white dough", "derived", 4.3, 4.6, ""},
};

inline const PracticeRow& practice_row(std::string_view what) {
  for (const PracticeRow& row : practice_rows) {
    if (row.what == what) return row;
  }
  throw std::runtime_error("no row of practice called " + std::string(what));
}

/// A dough of a kilogram of white flour, as a bake file.
struct Recipe {
  std::string levain = "10 %";
  std::string starter = "stiff ripe levain";
  std::string liquid = "water = \"72 %\"";
  std::string bottle = "";
  double salt = 2;
  double celsius = 24;
  std::string extra = "";
};

inline formula::Bake bake_of(const Recipe& recipe) {
  const std::string levain =
      recipe.levain.empty() ? "" : fmt::format("\"{}\" = \"{}\"\n", recipe.starter, recipe.levain);
  const std::string text = fmt::format(
      "name = \"row\"\nflour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n{}\n{}{}{}{}"
      "[[stage]]\ndo = \"bulk\"\ntemperature = \"{} C\"\nuntil = \"doubled\"\n",
      recipe.liquid,
      levain,
      recipe.salt > 0 ? fmt::format("salt = \"{} %\"\n", recipe.salt) : "",
      recipe.extra,
      recipe.bottle,
      recipe.celsius);
  auto bake = formula::parse_bake(text, "row.toml");
  if (!bake) throw std::runtime_error(bake.error().text() + "\n" + text);
  return *bake;
}

/// All of the liquid a drink of the larder, with these lines about its bottle.
inline Recipe all_of(const std::string& drink, const std::string& bottle, double celsius = 24) {
  return {.liquid = fmt::format("\"{}\" = \"72 %\"", drink),
          .bottle = fmt::format("[bottle.\"{}\"]\n{}\n", drink, bottle),
          .celsius = celsius};
}

inline Recipe all_wine(double celsius = 24) {
  return all_of("white wine", "strength = \"12 % vol\"\nph = 3.3", celsius);
}

/// Two per cent of fresh yeast, no levain, so much sugar on flour.
inline Recipe yeasted(double sugar_percent = 0) {
  Recipe recipe{.levain = "", .celsius = 27, .extra = "\"fresh yeast\" = \"2 %\"\n"};
  if (sugar_percent > 0) recipe.extra += fmt::format("sugar = \"{} %\"\n", sugar_percent);
  return recipe;
}

inline formula::Levain fed(const std::string& starter, double ripe, double flour, double water) {
  formula::Levain levain;
  levain.starter = *larder::find(starter);
  levain.flour = *larder::find("white bread flour");
  levain.ripe = ripe;
  levain.fresh_flour = flour;
  levain.water = water;
  return levain;
}

}  // namespace barm::test

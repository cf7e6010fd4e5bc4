// What the whole model must reproduce: the rows of practice, through the bake file, the larder, the
// bowl and the run with every number at its book value. A row that misses stands in `known_misses`
// with the reason; a row there that begins to agree fails the test, so that docs/validation.md
// stays true.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "forecast/ensemble.h"
#include "forecast/levain.h"
#include "formula/read.h"
#include "generated/constants.h"
#include "kinetics/growth.h"
#include "kinetics/parameter.h"
#include "larder/larder.h"
#include "support/validation.h"

namespace barm::forecast {

namespace {

const std::map<std::string, std::string> known_misses{
    {"plain dough: largest volume",
     "the limit of white flour and the fading of its gluten are guesses, set for all rows "
     "together"},
    {"plain dough: at 24 h", "as above: it falls a little late"},
    {"starting pH of an all-wine white dough",
     "the target was reckoned without salt and levain; both lower it, and the wine's acid is taken "
     "as tartaric"},
};

// Notes the row and holds it to its range, or to being a known miss.
void row(const std::string& what,
         const std::string& basis,
         double ours,
         double least,
         double most,
         const std::string& unit) {
  const bool agrees = ours >= least && ours <= most;
  test::record("Practice: the whole model",
               what,
               basis,
               fmt::format("{:g} to {:g}", least, most),
               ours,
               unit,
               agrees);
  EXPECT_EQ(agrees, !known_misses.contains(what))
      << what << ": " << ours << " against " << least << " to " << most;
}

struct Recipe {
  std::string levain = "10 %";
  std::string starter = "stiff ripe levain";
  std::string liquid = "water = \"72 %\"";
  std::string bottle = "";
  double salt = 2;
  double celsius = 24;
  std::string extra = "";
};

formula::Bake bake_of(const Recipe& recipe) {
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

Course course_of(const Recipe& recipe, double hours = 72) {
  const formula::Bake bake = bake_of(recipe);
  const auto drawn = draw(bake, 1, -1);
  if (!drawn) throw std::runtime_error(drawn.error().text());
  Options options;
  options.horizon = hours * hour;
  const auto course = run(drawn->dough, drawn->parameters, proving_of(bake, options));
  if (!course) throw std::runtime_error(course.error().text());
  return *course;
}

double hours_of(const std::optional<Time>& time) { return time ? time->in(hour) : INFINITY; }

double rise_at(const Course& course, double hours) {
  for (const Sample& sample : course.curve) {
    if (sample.hours >= hours) return sample.rise;
  }
  return NAN;
}

Recipe drink(const std::string& name, const std::string& bottle) {
  return {.liquid = fmt::format("\"{}\" = \"72 %\"", name),
          .bottle = fmt::format("[bottle.\"{}\"]\n{}\n", name, bottle)};
}

constexpr const char* practice = "common practice, no source";

double wild_rate(double celsius) {
  namespace wild = constants::wild_yeast;
  return kinetics::warmth(
      celsius, wild::t_max.value.celsius(), wild::t_opt.value.celsius(), wild::t_shape.value.si());
}

double bacteria_rate(double celsius) {
  namespace lab = constants::bacteria;
  return kinetics::warmth(
      celsius, lab::t_max.value.celsius(), lab::t_opt.value.celsius(), lab::t_shape.value.si());
}

// Gänzle, Ehmann & Hammes 1998, relative rates as the author summarised them.
TEST(Practice, GrowthRatesFollowGanzle) {
  constexpr const char* source = "ganzle1998";
  row("yeast rate at 20 C over 28 C", source, wild_rate(20) / wild_rate(28), 0.44, 0.56, "");
  row("yeast rate at 32 C over 28 C", source, wild_rate(32) / wild_rate(28), 0.42, 0.58, "");
  row("bacteria rate at 20 C over 32 C",
      source,
      bacteria_rate(20) / bacteria_rate(32),
      0.42,
      0.58,
      "");
  row("bacteria rate at 37 C over 32 C",
      source,
      bacteria_rate(37) / bacteria_rate(32),
      0.42,
      0.58,
      "");
  row("bacteria rate at 39 C over 32 C",
      source,
      bacteria_rate(39) / bacteria_rate(32),
      0.17,
      0.33,
      "");
  const auto p = kinetics::book();
  using P = kinetics::Parameter;
  row("bacteria at 40 g/L salt",
      source,
      kinetics::dose(40.0, p[P::bacteria_salt_half], constants::bacteria::salt_power.value.si()),
      0,
      0.2,
      "of full speed");
  row("yeast at 80 g/L salt",
      source,
      kinetics::dose(80.0, p[P::wild_salt_half], constants::wild_yeast::salt_power.value.si()),
      0.01,
      1,
      "of full speed");
}

TEST(Practice, PlainDoughRisesPeaksAndFalls) {
  const Course plain = course_of({});
  const double at_24 = hours_of(plain.ready);
  row("plain dough, 10 % stiff levain, 24 C: doubled", practice, at_24, 8, 12, "h");
  row("plain dough: largest volume", practice, plain.largest_rise, 2.8, 3.5, "times");
  row("plain dough: at its peak", practice, hours_of(plain.peak), 12, 16, "h");
  row("plain dough: at 24 h", practice, rise_at(plain, 24), 1.7, 2.3, "times");
  row("plain dough: at 36 h", practice, rise_at(plain, 36), 1, 1.7, "times");
  row("20 % levain, 24 C: doubled",
      practice,
      hours_of(course_of({.levain = "20 %"}).ready),
      6.5,
      9.5,
      "h");
  row("10 % levain, 18 C over 24 C",
      practice,
      hours_of(course_of({.celsius = 18}).ready) / at_24,
      1.8,
      2.5,
      "times");
  row("10 % levain, 27 C: doubled",
      practice,
      hours_of(course_of({.celsius = 27}).ready),
      7,
      10,
      "h");
}

TEST(Practice, SaltSlowsStepByStep) {
  double before = 0;
  for (const double salt : {0.0, 2.0, 3.0, 4.0}) {
    const double hours = hours_of(course_of({.salt = salt}).ready);
    row(fmt::format("salt {} %: slower than the step before", salt),
        practice,
        hours - before,
        0.3,
        12,
        "h");
    before = hours;
  }
}

Course fed(const std::string& starter, double ripe, double flour, double water, double hours) {
  formula::Levain levain;
  levain.starter = *larder::find(starter);
  levain.flour = *larder::find("white bread flour");
  levain.ripe = ripe;
  levain.fresh_flour = flour;
  levain.water = water;
  const auto course = levain_course(levain,
                                    *larder::typical(levain.starter),
                                    *larder::typical(levain.flour),
                                    kinetics::book(),
                                    hours * hour);
  if (!course) throw std::runtime_error(course.error().text());
  return *course;
}

TEST(Practice, LevainsRiseAsFed) {
  const Course stiff = fed("stiff ripe levain", 1, 2, 1, 16);
  double tripled = INFINITY;
  for (const Sample& sample : stiff.curve) {
    if (sample.rise >= 3) {
      tripled = sample.hours;
      break;
    }
  }
  row("stiff levain fed 1:2:1, 26 C: tripled", practice, tripled, 5, 9, "h");
  const Course liquid = fed("liquid ripe levain", 1, 1, 1, 14);
  row("liquid levain fed 1:1:1, 26 C: largest volume",
      practice,
      liquid.largest_rise,
      2,
      2.7,
      "times");
  row("liquid levain fed 1:1:1, 26 C: at its peak", practice, hours_of(liquid.peak), 4, 7, "h");
  row("liquid levain at 14 h: pH", "sourdough_counts", liquid.curve.back().ph, 3.7, 4.0, "");
  const auto& y = liquid.at_end;
  const auto p = kinetics::book();
  row("liquid levain at 14 h: bacteria",
      "sourdough_counts",
      std::log10(y[kinetics::bacteria] / p[kinetics::Parameter::bacteria_cell_mass] / 1000),
      9.2,
      9.75,
      "log CFU/g");
  row("liquid levain at 14 h: yeast",
      "sourdough_counts",
      std::log10(y[kinetics::wild_yeast] / p[kinetics::Parameter::wild_cell_mass] / 1000),
      7.0,
      8.1,
      "log CFU/g");
}

TEST(Practice, DrinksSlowAndStop) {
  const double plain = hours_of(course_of({}).ready);
  const Course wine = course_of(drink("white wine", "strength = \"12 % vol\"\nph = 3.3"), 96);
  row("all wine of 12 % vol, 24 C: risen by 24 h", practice, rise_at(wine, 24), 1, 1.1, "times");
  row("all wine of 12 % vol, 24 C: risen by a fifth", practice, hours_of(wine.fifth), 30, 60, "h");
  Recipe warm = drink("white wine", "strength = \"12 % vol\"\nph = 3.3");
  warm.celsius = 28;
  row("the same at 28 C: hardly sooner",
      "derived",
      hours_of(course_of(warm, 96).fifth) / hours_of(wine.fifth),
      0.85,
      1.3,
      "times");
  const Course spirit = course_of(drink("neutral spirit", "strength = \"12 % vol\""), 96);
  row("spirit dough of the same alcohol against wine: a fifth",
      practice,
      hours_of(spirit.fifth) / hours_of(wine.fifth),
      0.67,
      1.5,
      "times");
  const double five = hours_of(course_of(drink("lager", "strength = \"5 % vol\"")).ready);
  row("all liquid of 5 % vol: slower than plain", practice, five / plain, 1.15, 1.6, "times");
  const Course four = course_of(drink("lager", "strength = \"4 % vol\""));
  row("thinned to 4 % vol: slower than plain",
      practice,
      hours_of(four.ready) / plain,
      1,
      1.5,
      "times");
  row("thinned to 4 % vol: rises fully", practice, four.largest_rise, 2.5, 4.5, "times");
  const Course strong = course_of(drink("fortified wine", "strength = \"18 % vol\""), 168);
  row("all liquid of 18 % vol: largest volume in a week",
      practice,
      strong.largest_rise,
      1,
      1.1,
      "times");
  const Course brine = course_of(drink("pickle brine", "acetic_acid = \"10 g/L\"\nph = 2.9"));
  row("pickle brine with 1 % acetic acid: risen by 24 h",
      practice,
      rise_at(brine, 24),
      1,
      1.3,
      "times");
}

TEST(Practice, ColdHoldsTheDough) {
  row("plain dough at 4 C: risen in 7 days",
      practice,
      course_of({.celsius = 4}, 168).largest_rise,
      1,
      1.1,
      "times");
  row("plain dough at 8 C: risen by a fifth",
      practice,
      hours_of(course_of({.celsius = 8}, 168).fifth) / 24,
      3,
      5,
      "days");
}

TEST(Practice, BakersYeastIsQuickAndSugarSlowsIt) {
  Recipe yeasted{.levain = "", .celsius = 27, .extra = "\"fresh yeast\" = \"2 %\"\n"};
  const Course plain = course_of(yeasted, 10);
  row("2 % fresh yeast, 27 C: doubled", practice, plain.ready->in(minute), 55, 90, "min");
  const auto gas_at_an_hour = [](const Recipe& recipe) {
    return course_of(recipe, 1).at_end[kinetics::yeast_gas];
  };
  const double unsugared = gas_at_an_hour(yeasted);
  yeasted.extra = "\"fresh yeast\" = \"2 %\"\nsugar = \"10 %\"\n";
  row("10 % sugar on flour: gas in the first hour",
      "remembered",
      gas_at_an_hour(yeasted) / unsugared,
      0.65,
      0.85,
      "of unsugared");
  yeasted.extra = "\"fresh yeast\" = \"2 %\"\nsugar = \"20 %\"\n";
  row("20 % sugar on flour: gas in the first hour",
      "remembered",
      gas_at_an_hour(yeasted) / unsugared,
      0.35,
      0.6,
      "of unsugared");
}

TEST(Practice, AnAllWineDoughStartsSour) {
  const auto drawn = draw(bake_of(drink("white wine", "strength = \"12 % vol\"\nph = 3.3")), 1, -1);
  ASSERT_TRUE(drawn.has_value());
  row("starting pH of an all-wine white dough", "derived", drawn->bowl.ph.value(), 4.3, 4.6, "");
}

}  // namespace

}  // namespace barm::forecast

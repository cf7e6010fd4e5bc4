#include "formula/bowl.h"

#include <gtest/gtest.h>

#include <numeric>

#include "chemistry/ethanol_water.h"
#include "chemistry/gas.h"
#include "formula/bakes.h"
#include "generated/constants.h"
#include "larder/larder.h"
#include "support/csv.h"
#include "support/validation.h"

namespace barm::formula {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;
using ::barm::test::record;
using test::bowl;
using test::grams;
using test::line;

// --- published worked examples: tests/truth/data/worked_examples.csv ---

std::string published(const std::string& id) {
  for (const auto& row : ::barm::test::read_csv("worked_examples.csv")) {
    if (row.at("id") == id) return row.at("published");
  }
  return "";
}

void compare(const std::string& what,
             const std::string& source,
             double theirs,
             double ours,
             double within,
             const std::string& unit) {
  EXPECT_NEAR(ours, theirs, within) << what;
  record("baker's percent",
         what,
         source,
         std::to_string(theirs),
         ours,
         unit,
         std::abs(ours - theirs) <= within);
}

// BP1: culinary-school worksheet "Baker's Math"; the sheet cuts the flour off after
// three decimals, takes its percentages of that and cuts off again.
TEST(PublishedExamples, ScalesTo73PiecesOf390Grams) {
  ASSERT_EQ(published("BP1"),
            "total 28470 g; factor 1.70; flour 16747.058 g; water 11220.528; salt 334.941; yeast "
            "167.470; sum 28469.997");
  const Bowl in = bowl(R"(pieces = 73
piece = "390 g"
[bowl]
"white bread flour" = "100 %"
water = "67 %"
salt = "2 %"
"fresh yeast" = "1 %"
)");
  const std::string source = "worksheet Baker's Math";
  EXPECT_NEAR(grams(in.dough), 28470, 1e-6);
  compare("flour for 73 pieces of 390 g",
          source,
          16747.058,
          grams(line(in, "white bread flour").plan),
          1e-3,
          "g");
  compare("water for 73 pieces of 390 g",
          source,
          11220.528,
          grams(line(in, "water").plan),
          1.67e-3,
          "g");
  compare(
      "salt for 73 pieces of 390 g", source, 334.941, grams(line(in, "salt").plan), 1.02e-3, "g");
  compare("yeast for 73 pieces of 390 g",
          source,
          167.470,
          grams(line(in, "fresh yeast").plan),
          1.01e-3,
          "g");
}

// BP2: handout "How to work with a formula expressed in baker's percent".
TEST(PublishedExamples, TurnsPoundsAndOuncesIntoPercent) {
  ASSERT_EQ(published("BP2"), "salt 1.75; sugar 2.00; yeast 1.50; oil 3.00; water 58.00 %");
  const Bowl in = bowl(R"([bowl]
"white bread flour" = "40 lb"
salt = "11.2 oz"
sugar = "12.8 oz"
"fresh yeast" = "9.6 oz"
"olive oil" = "19.2 oz"
water = "371.2 oz"
)");
  const std::string source = "handout on baker's percent";
  compare("salt of 40 lb flour", source, 1.75, line(in, "salt").share.percent(), 1e-9, "%");
  compare("sugar of 40 lb flour", source, 2.00, line(in, "white sugar").share.percent(), 1e-9, "%");
  compare("yeast of 40 lb flour", source, 1.50, line(in, "fresh yeast").share.percent(), 1e-9, "%");
  compare("oil of 40 lb flour", source, 3.00, line(in, "olive oil").share.percent(), 1e-9, "%");
  compare("water of 40 lb flour", source, 58.00, line(in, "water").share.percent(), 1e-9, "%");
}

// BP3: teaching slides. The sum is 162.125 %, which the slides use as a divisor of 1.62.
TEST(PublishedExamples, GoesFromDoughToFlour) {
  ASSERT_EQ(published("BP3"),
            "sum 162.125 %; divisor 1.62; 40 lb x 1.75 % = 0.7 lb = 11.2 oz; 23/40 = 57.5 %");
  const Bowl in = bowl(R"(pieces = 1
piece = "64.85 lb"
[bowl]
"white bread flour" = "100 %"
salt = "1.75 %"
sugar = "2 %"
"dry yeast" = "0.375 %"
water = "58 %"
)");
  const std::string source = "teaching slides on baker's percent";
  compare("flour of 64.85 lb dough", source, 40, in.flour.in(pound), 1e-9, "lb");
  compare("salt of 40 lb flour", source, 11.2, line(in, "salt").plan.in(ounce), 1e-9, "oz");
  const Bowl wet = bowl("[bowl]\n\"white bread flour\" = \"40 lb\"\nwater = \"23 lb\"\n");
  compare(
      "23 lb water on 40 lb flour", source, 57.5, line(wet, "water").share.percent(), 1e-9, "%");
}

// BL1, BL2: a baker's weights of dough and bread with the loss rounded to a per cent.
TEST(PublishedExamples, LosesInTheOvenWhatBakersWeighed) {
  ASSERT_EQ(published("BL1"), "15 %");
  ASSERT_EQ(published("BL2"), "10 %");
  const auto baked = [](const std::string& piece, const std::string& loss) {
    return grams(bowl("pieces = 1\npiece = \"" + piece + "\"\nloss = { bake = \"" + loss +
                      "\" }\n[bowl]\n\"white bread flour\" = \"100 %\"\n")
                     .baked_piece);
  };
  compare("bread of 314 g dough", "forum topic 942", 267, baked("314 g", "15 %"), 314 * 0.005, "g");
  compare("bread of 84 g dough", "forum topic 942", 75, baked("84 g", "10 %"), 84 * 0.01, "g");
}

// BL3, professional baking textbook: 50 to 65 g more dough for 500 g of bread. BL4, a trade
// dictionary: 9.8 to 11.5 % of the dough, which are the same numbers from the other end.
TEST(PublishedExamples, AsksForTheDoughThatABreadNeeds) {
  ASSERT_EQ(published("BL3"), "1.5 to 2 oz extra dough; 50-65 g per 500 g; loss 10-13 % of dough");
  ASSERT_EQ(published("BL4"), "9.8 to 11.5 % of raw dough");
  const auto extra = [](const std::string& loss) {
    return grams(bowl("pieces = 1\nbaked = \"500 g\"\nloss = { bake = \"" + loss +
                      "\" }\n[bowl]\n\"white bread flour\" = \"100 %\"\n")
                     .dough) -
           500;
  };
  compare("extra dough, low loss of the dictionary",
          "textbook and trade dictionary",
          50,
          extra("9.8 %"),
          5,
          "g");
  compare("extra dough, high loss of the dictionary",
          "textbook and trade dictionary",
          65,
          extra("11.5 %"),
          0.1,
          "g");
  EXPECT_GE(Bake{}.bake_loss, 0.10);
  EXPECT_LE(Bake{}.bake_loss, 0.13);
}

// --- weighing out ---

TEST(WeighOut, ScalesToPiecesWithBothLosses) {
  const Bowl in = bowl(R"(pieces = 4
baked = "780 g"
loss = { handling = "2 %", bake = "13 %" }
[bowl]
"white bread flour" = "100 %"
water = "60 %"
)");
  EXPECT_NEAR(grams(in.dough), 4 * 780 / 0.87 / 0.98, 1e-9);
  EXPECT_NEAR(grams(in.piece), 780 / 0.87, 1e-9);
  EXPECT_NEAR(grams(in.baked_piece), 780, 1e-9);
  EXPECT_EQ(in.pieces, 4);
}

TEST(WeighOut, ComesToTheDoughThatIsWanted) {
  const std::string rest = R"(
loss = { handling = "2 %", bake = "12 %" }
[bowl]
"white bread flour" = "100 %"
liquid = "70 %"
"dry mead" = "300 g"
water = "rest of the liquid"
salt = "2 %"
levain = "20 %"
)";
  const Bowl whole = bowl("dough = \"1.8 kg\"" + rest);
  EXPECT_NEAR(grams(whole.dough), 1800, 1e-9);
  EXPECT_EQ(whole.pieces, 0);
  const Bowl in_two = bowl("dough = \"1.8 kg\"\npieces = 2" + rest);
  EXPECT_NEAR(grams(in_two.dough), 1800, 1e-9);
  EXPECT_NEAR(grams(in_two.piece), 1800 * 0.98 / 2, 1e-9);
  double sum = 0;
  for (const Weighed& line : whole.lines) sum += grams(line.plan);
  EXPECT_NEAR(sum, 1800, 1e-9);
}

// 20 % levain of 50 % hydration holds 13.33 % of all flour: 866.7 g are left to weigh of 1000.
TEST(WeighOut, CountsTheFlourInTheLevain) {
  const Bowl in = bowl(R"(flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
levain = "20 %"
[levain]
starter = "stiff ripe levain"
feed = "1:2:1"
flour = "white bread flour"
)");
  EXPECT_NEAR(grams(line(in, "levain").plan), 200, 1e-9);
  EXPECT_NEAR(grams(in.levain_flour), 200 / 1.5, 1e-9);
  EXPECT_NEAR(grams(line(in, "white bread flour").plan), 1000 - 200 / 1.5, 1e-9);
  EXPECT_NEAR(grams(in.flour), 1000, 1e-9);
  EXPECT_NEAR(in.liquid_hydration(), 0.7 + 0.2 / 3, 1e-12);
  EXPECT_NEAR(line(in, "water").share.value(), 0.7, 1e-12);
}

// The other way bakers count: 1000 g are weighed, 2 % of salt are 20 g, and the levain's 133 g come
// on top.
TEST(WeighOut, CountsPercentOnTheFlourWeighedWhereTheBakerSaysSo) {
  const Bowl in = bowl(R"(flour = "1 kg"
percent_of = "the flour weighed"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
salt = "2 %"
levain = "20 %"
[levain]
starter = "stiff ripe levain"
feed = "1:2:1"
flour = "white bread flour"
)");
  EXPECT_NEAR(grams(line(in, "white bread flour").plan), 1000, 1e-9);
  EXPECT_NEAR(grams(line(in, "salt").plan), 20, 1e-9);
  EXPECT_NEAR(grams(line(in, "levain").plan), 200, 1e-9);
  EXPECT_NEAR(grams(in.flour), 1000 + 200 / 1.5, 1e-9);
  EXPECT_NEAR(grams(in.percent_of), 1000, 1e-9);
  EXPECT_NEAR(line(in, "water").share.value(), 0.7, 1e-12);
  EXPECT_EQ(in.percent_of_what(), "the flour weighed");
}

// A weight of liquid and a weight of dough: the flour follows. Of 1800 g, 700 g are liquid and the
// rest is flour, salt and levain, whose flour comes off: 1100 g are F (1 + 0.02 + 0.2 - 0.2 / 1.5).
TEST(WeighOut, FindsTheFlourOfADoughWhoseLiquidIsAWeight) {
  const std::string rows = R"(liquid = "700 g"
"white bread flour" = "100 %"
"dry mead" = "50 % of the liquid"
water = "rest of the liquid"
salt = "2 %"
levain = "20 %"
[levain]
starter = "stiff ripe levain"
feed = "1:2:1"
flour = "white bread flour"
)";
  const Bowl in = bowl("dough = \"1.8 kg\"\n[bowl]\n" + rows);
  EXPECT_NEAR(grams(in.dough), 1800, 1e-9);
  EXPECT_NEAR(grams(line(in, "dry mead").plan), 350, 1e-9);
  EXPECT_NEAR(grams(line(in, "water").plan), 350, 1e-9);
  EXPECT_NEAR(grams(in.flour), 1100 / (1 + 0.02 + 0.2 - 0.2 / 1.5), 1e-9);
  const Bowl in_pieces = bowl("pieces = 2\npiece = \"900 g\"\n[bowl]\n" + rows);
  EXPECT_NEAR(grams(in_pieces.dough), 1800, 1e-9);
  EXPECT_NEAR(grams(line(in_pieces, "water").plan), 350, 1e-9);
}

TEST(WeighOut, TakesTheLevainsFlourOffItsOwnLine) {
  const std::string two = R"(flour = "1 kg"
[bowl]
"white bread flour" = "80 %"
"rye flour" = "20 %"
levain = "20 %"
)";
  const std::string table = "[levain]\nstarter = \"stiff ripe levain\"\nfeed = \"1:2:1\"\nflour = ";
  const double held = 200 / 1.5;
  const Bowl rye = bowl(two + table + "\"rye flour\"\n");
  EXPECT_NEAR(grams(line(rye, "white bread flour").plan), 800, 1e-9);
  EXPECT_NEAR(grams(line(rye, "medium rye flour").plan), 200 - held, 1e-9);
  const Bowl other = bowl(two + table + "\"wholemeal flour\"\n");
  EXPECT_NEAR(grams(line(other, "white bread flour").plan), 800 - 0.8 * held, 1e-9);
  EXPECT_NEAR(grams(line(other, "medium rye flour").plan), 200 - 0.2 * held, 1e-9);
}

TEST(WeighOut, GramsAreTakenAsTheyStand) {
  const Bowl in = bowl(R"([bowl]
"white bread flour" = "900 g"
water = "600 g"
"stiff ripe levain" = "150 g"
salt = "2 %"
)");
  EXPECT_NEAR(grams(in.flour), 1000, 1e-9);
  EXPECT_NEAR(grams(line(in, "white bread flour").plan), 900, 1e-9);
  EXPECT_NEAR(grams(line(in, "salt").plan), 20, 1e-9);
}

TEST(WeighOut, ALevainInPercentOfWeighedFlour) {
  const Bowl in =
      bowl("[bowl]\n\"white bread flour\" = \"900 g\"\n\"stiff ripe levain\" = \"15 %\"\n");
  EXPECT_NEAR(grams(in.flour), 1000, 1e-9);
  EXPECT_NEAR(grams(line(in, "stiff ripe levain").plan), 150, 1e-9);
}

TEST(WeighOut, TheRestOfTheLiquidIsWhatTheOthersLeave) {
  const Bowl in = bowl(R"(flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
liquid = "70 %"
"dry mead" = "50 % of the liquid"
milk = "10 %"
"orange juice" = "40 g"
water = "rest of the liquid"
)");
  EXPECT_NEAR(grams(line(in, "dry mead").plan), 350, 1e-9);
  EXPECT_NEAR(grams(line(in, "water").plan), 700 - 350 - 100 - 40, 1e-9);
}

TEST(WeighOut, VolumesBecomeWeightsByDensity) {
  const Bowl in = bowl(R"([bowl]
"white bread flour" = "1 kg"
"dry mead" = "50 cl"
salt = "1 tbsp"
[bottle."dry mead"]
density = "0.99 g/mL"
)");
  EXPECT_NEAR(grams(line(in, "dry mead").plan), 495, 1e-9);
  EXPECT_NEAR(line(in, "dry mead").volume.in(centilitre), 50, 1e-9);
  EXPECT_NEAR(grams(line(in, "salt").plan), 15 * 1.2, 1e-9);
}

TEST(WeighOut, WhatWasPouredCounts) {
  const Bowl in = bowl(test::plain + "[weighed]\nwater = \"700 g\"\n");
  EXPECT_NEAR(grams(line(in, "water").plan), 650, 1e-9);
  EXPECT_NEAR(grams(line(in, "water").actual), 700, 1e-9);
  EXPECT_NEAR(in.real_hydration(), 0.7, 1e-2);
  EXPECT_NEAR(grams(in.dough), 1730, 1e-9);
}

// --- what it adds up to ---

TEST(Bowl, CountsRealWaterWithoutFlourMoisture) {
  const Bowl in = bowl(test::plain);
  const double yeast =
      10 * larder::typical(*larder::find("fresh yeast")).value()[larder::Property::water];
  const double salt = 20 * larder::typical(*larder::find("salt")).value()[larder::Property::water];
  const double water =
      650 * larder::typical(*larder::find("water")).value()[larder::Property::water];
  EXPECT_NEAR(grams(in.added_water), water + yeast + salt, 1e-9);
  const double moisture =
      1000 * larder::typical(*larder::find("white bread flour")).value()[larder::Property::water];
  EXPECT_NEAR(grams(in.water - in.added_water), moisture, 1e-9);
  EXPECT_NEAR(in.liquid_hydration(), 0.65, 1e-12);
}

// 11.5 % vol is 90.76 g of alcohol in a litre whatever else is in it: 0.115 x 789.24.
TEST(Bowl, TakesAlcoholByVolumeAndNotByWeight) {
  const Bowl in = bowl(test::mead);
  const double litres = line(in, "dry mead").volume.in(litre);
  EXPECT_NEAR(grams(in.ethanol), 0.115 * 789.24 * litres, 1e-3);
  EXPECT_NEAR(grams(line(in, "dry mead").plan), 350, 1e-9);
  EXPECT_LT(in.strength_of_liquid().percent(), 11.5 / 2 + 0.1);
  EXPECT_GT(in.strength_of_liquid().percent(), 11.5 / 2 - 0.1);
}

TEST(Bowl, ADrinkAloneIsAsStrongAsItsBottle) {
  const Bowl in = bowl(
      "[bowl]\n\"white bread flour\" = \"1 kg\"\n\"sweet mead\" = \"700 g\"\n[bottle.\"sweet "
      "mead\"]\nstrength = \"13 % vol\"\nsugar = \"90 g/L\"\n");
  EXPECT_NEAR(in.strength_of_liquid().percent(), 13, 1e-8);
  EXPECT_NEAR(in.contraction.in(millilitre), 0, 1e-9);
  EXPECT_NEAR(in.liquid_volume.in(millilitre), line(in, "sweet mead").volume.in(millilitre), 1e-6);
}

TEST(Bowl, ItsWaterPhaseIsWaterAndAlcoholByOiml) {
  const Bowl in = bowl(test::mead);
  const MassFraction p(in.ethanol / (in.ethanol + in.water));
  const auto rho = chemistry::density(p, Temperature::from_celsius(20));
  EXPECT_NEAR(((in.water + in.ethanol) / in.water_phase).si(), rho->si(), 1e-9);
}

TEST(Bowl, StrongSpiritShrinksWithWaterAndWeakMeadSwells) {
  const std::string start = "[bowl]\n\"white bread flour\" = \"1 kg\"\nwater = \"350 g\"\n";
  const Bowl spirit = bowl(start + "\"spirit, 50 %\" = \"350 g\"\n");
  const Bowl mead = bowl(start + "\"dry mead\" = \"350 g\"\n");
  EXPECT_GT(spirit.contraction.in(millilitre), 2);
  EXPECT_LT(mead.contraction.in(millilitre), 0);
}

TEST(Bowl, SourDrinkMakesASourerDough) {
  const std::string start = "[bowl]\n\"white bread flour\" = \"1 kg\"\nsalt = \"20 g\"\n";
  const double plain = bowl(start + "water = \"700 g\"\n").ph.value();
  const double mead = bowl(start + "\"dry mead\" = \"700 g\"\n").ph.value();
  const double wine = bowl(start + "\"white wine\" = \"700 g\"\n").ph.value();
  EXPECT_NEAR(plain, 6.1, 0.1);
  EXPECT_LT(mead, plain - 0.5);
  EXPECT_LT(wine, mead);
  EXPECT_GT(wine, 3.9);
}

// A dough holds somewhat more of it than its water alone (gas.dissolving).
TEST(Bowl, LosesTheGasThatADoughCannotHold) {
  const Bowl in = bowl(
      "[bowl]\n\"white bread flour\" = \"1 kg\"\nlager = \"700 g\"\n[bottle.lager]\ncarbon_dioxide "
      "= \"5 g/L\"\n");
  const double most = constants::gas::dissolving.value.si() *
                      chemistry::carbon_dioxide_solubility(Temperature::from_celsius(24)) * 101325 *
                      in.water.in(kilogram)*constants::molar_mass::carbon_dioxide.value.si();
  EXPECT_NEAR(in.carbon_dioxide.in(kilogram), most, 1e-12);
  EXPECT_NEAR(
      in.acid.back().in(mole)*constants::molar_mass::carbon_dioxide.value.si(), most, 1e-12);
}

TEST(Bowl, AveragesTheFlours) {
  const Bowl in = bowl(
      "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"60 %\"\n\"wholemeal flour\" = \"40 "
      "%\"\n");
  const auto white = larder::typical(*larder::find("white bread flour")).value();
  const auto brown = larder::typical(*larder::find("wholemeal flour")).value();
  const auto mean = [&](larder::Property property) {
    return 0.6 * white[property] + 0.4 * brown[property];
  };
  EXPECT_NEAR(in.ash, mean(larder::Property::ash), 1e-12);
  EXPECT_NEAR(in.rise_limit, mean(larder::Property::rise_limit), 1e-12);
  EXPECT_NEAR(in.flour_buffering, mean(larder::Property::buffering), 1e-12);
  EXPECT_EQ(in.buffering, in.flour_buffering);
}

TEST(Bowl, CountsSugarsOfEverythingButFlour) {
  const Bowl in =
      bowl("[bowl]\n\"white bread flour\" = \"1 kg\"\nsugar = \"50 g\"\nhoney = \"30 g\"\n");
  const auto honey = larder::typical(*larder::find("honey")).value();
  const auto sugar = larder::typical(*larder::find("sugar")).value();
  EXPECT_NEAR(grams(in.sucrose),
              50 * sugar[larder::Property::sucrose] + 30 * honey[larder::Property::sucrose],
              1e-9);
  EXPECT_NEAR(grams(in.hexose),
              30 * (honey[larder::Property::glucose] + honey[larder::Property::fructose]),
              1e-9);
}

TEST(Bowl, SaltAndSugarLowerWaterActivity) {
  const double plain =
      bowl("[bowl]\n\"white bread flour\" = \"1 kg\"\nwater = \"650 g\"\n").water_activity;
  const double salted = bowl(test::plain).water_activity;
  const double spirit = bowl(
                            "[bowl]\n\"white bread flour\" = \"1 kg\"\nwater = \"600 g\"\nsalt = "
                            "\"20 g\"\n\"neutral spirit\" = \"60 g\"\n")
                            .water_activity;
  EXPECT_NEAR(plain, 1, 1e-3);
  EXPECT_NEAR(salted, 0.986, 0.003);
  EXPECT_LT(spirit, salted);
}

TEST(Bowl, TakesCompositionsThatAForecastDraws) {
  const Bake bake = test::bake(test::mead);
  auto settled = settle(bake);
  ASSERT_THAT(settled, Holds());
  (*settled)[1][larder::Property::ethanol] = 0;
  const auto in = in_the_bowl(bake, *settled);
  ASSERT_THAT(in, Holds());
  EXPECT_EQ(in->ethanol.si(), 0);
  EXPECT_TRUE(in->cautions.empty());
  settled->pop_back();
  EXPECT_THAT(in_the_bowl(bake, *settled), FailsWith(ErrorCode::bad_input));
}

TEST(Settle, GivesTheLevainItsOwnFlourAndHydration) {
  const std::string start =
      "[bowl]\n\"white bread flour\" = \"1 kg\"\nlevain = \"200 g\"\n[levain]\nstarter = \"stiff "
      "ripe levain\"\n";
  using larder::Property;
  const auto same =
      settle(test::bake(start + "feed = \"1:2:1\"\nflour = \"white bread flour\"\n"))->back();
  const auto stiff = larder::typical(*larder::find("stiff ripe levain")).value();
  EXPECT_NEAR(same[Property::hydration], 0.5, 1e-12);
  for (const Property kept : {Property::lactic_acid,
                              Property::ethanol,
                              Property::wild_yeast,
                              Property::lactic_bacteria,
                              Property::ph,
                              Property::lag}) {
    EXPECT_NEAR(same[kept], stiff[kept], 1e-9 * (1 + std::abs(stiff[kept])));
  }
  const auto wet =
      settle(test::bake(start + "feed = \"1:2:2.3333333\"\nflour = \"rye flour\"\n"))->back();
  EXPECT_NEAR(wet[Property::hydration], 1, 1e-6);
  EXPECT_NEAR(wet[Property::lactic_acid], stiff[Property::lactic_acid] * 1.5 / 2, 1e-6);
  EXPECT_NEAR(wet[Property::wild_yeast], stiff[Property::wild_yeast] + std::log10(1.5 / 2), 1e-6);
  const auto rye = larder::typical(*larder::find("rye flour")).value();
  EXPECT_NEAR(wet[Property::ash], rye[Property::ash] / 2, 1e-6);
  EXPECT_NEAR(wet[Property::water], (rye[Property::water] + 1) / 2, 1e-6);
}

TEST(ByWeight, KeepsTheBowlAsItIs) {
  const Bake bake = test::example("mead-loaf.toml");
  const Bowl before = bowl(bake);
  std::vector<Mass> masses;
  for (const Weighed& one : before.lines) masses.push_back(one.plan);
  const Bowl after = bowl(by_weight(bake, masses));
  EXPECT_NEAR(grams(after.flour), grams(before.flour), 1e-9);
  EXPECT_NEAR(grams(after.dough), grams(before.dough), 1e-9);
  EXPECT_EQ(after.pieces, 6);
}

}  // namespace

}  // namespace barm::formula

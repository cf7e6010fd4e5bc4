#include "formula/cautions.h"

#include <gmock/gmock.h>

#include <filesystem>

#include "formula/bakes.h"

namespace barm::formula {

namespace {

using ::testing::Contains;
using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::Not;

std::vector<std::string> of(const std::string& text) { return test::bowl(text).cautions; }

const std::string start = "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n";

TEST(Cautions, SpeakOfUnusualSaltAndWater) {
  EXPECT_THAT(of(start + "water = \"65 %\"\nsalt = \"5 %\"\n"),
              Contains(HasSubstr("Salt is 5.0 % of flour")));
  EXPECT_THAT(of(start + "water = \"65 %\"\n"), Contains(HasSubstr("No salt")));
  EXPECT_THAT(of(start + "water = \"40 %\"\nsalt = \"2 %\"\n"),
              Contains(HasSubstr("Real water is 40 % of flour: stiff")));
  EXPECT_THAT(of(start + "water = \"125 %\"\nsalt = \"2 %\"\n"),
              Contains(HasSubstr("Real water is 125 % of flour: it flows")));
  const auto usual = of(start + "water = \"65 %\"\nsalt = \"2 %\"\n");
  EXPECT_THAT(usual, Each(Not(HasSubstr("alt is"))));
  EXPECT_THAT(usual, Each(Not(HasSubstr("No salt"))));
  EXPECT_THAT(usual, Each(Not(HasSubstr("Real water"))));
}

TEST(Cautions, SpeakOfVapourAboveTwoPerCentOfAlcohol) {
  EXPECT_THAT(of(start + "\"white wine\" = \"70 %\"\n"),
              Contains(HasSubstr("vapour can catch fire")));
  EXPECT_THAT(of(start + "lager = \"65 %\"\n"), Each(Not(HasSubstr("vapour"))));
}

TEST(Cautions, SpeakOfClosedJarsWhenTheDoughLives) {
  EXPECT_THAT(of(start + "water = \"65 %\"\n\"fresh yeast\" = \"1 %\"\n"),
              Contains(HasSubstr("can burst")));
  EXPECT_THAT(of(start + "water = \"65 %\"\n"), Each(Not(HasSubstr("burst"))));
}

TEST(Cautions, SpeakOfRawFlourAlways) {
  EXPECT_THAT(of(start + "water = \"65 %\"\n"), Contains(HasSubstr("Raw flour")));
}

// 70 g of a wine with 134 mg/L in 170 g of dough, 12 % of which is lost in baking.
TEST(Cautions, NameSulphitesFromTenMilligramsAKilogram) {
  const std::string wine =
      start + "\"white wine\" = \"70 %\"\n[bottle.\"white wine\"]\ntotal_sulphite = ";
  EXPECT_THAT(of(wine + "\"134 mg/kg\"\n"), Contains(HasSubstr("Sulphites: up to 63 mg/kg")));
  EXPECT_THAT(of(wine + "\"20 mg/kg\"\n"), Each(Not(HasSubstr("Sulphites"))));
}

TEST(Cautions, NameAllergensOfEveryLineAndOfTheLevainsFlour) {
  EXPECT_THAT(of(start + "stout = \"65 %\"\nmilk = \"5 %\"\n"),
              Contains(HasSubstr("Allergens: barley, milk, wheat.")));
  EXPECT_THAT(of(start + "water = \"65 %\"\nlevain = \"20 %\"\n[levain]\nstarter = \"ripe "
                         "levain\"\nflour = \"rye flour\"\n"),
              Contains(HasSubstr("Allergens: rye, wheat.")));
}

TEST(Cautions, NameAllergensHoweverManyAndThoseOfAnOwnList) {
  const std::string paste = start +
                            "\"marsh paste\" = \"10 %\"\n[ingredient.\"marsh paste\"]\n"
                            "group = \"other\"\nwater = \"5 %\"\n";
  EXPECT_THAT(of(paste + "allergens = [\"almonds\", \"hazelnuts\", \"walnuts\", \"cashews\", "
                         "\"pecans\", \"pistachios\", \"sesame\", \"soya\", \"mustard\", "
                         "\"celery\", \"lupin\"]\n"),
              Contains(HasSubstr("Allergens: almonds, cashews, celery, hazelnuts, lupin, mustard, "
                                 "pecans, pistachios, sesame, soya, walnuts, wheat.")));
  EXPECT_THAT(of(paste + "list = \"sugar, whole milk powder, egg white\"\n"),
              Contains(HasSubstr("Allergens: eggs, milk, wheat.")));
}

TEST(Cautions, SpeakOfMilkAndEggInTheWarm) {
  EXPECT_THAT(of(start + "milk = \"65 %\"\n"), Contains(HasSubstr("Milk or egg stands at 24 °C")));
  EXPECT_THAT(of(start + "milk = \"65 %\"\n[[stage]]\ndo = \"bulk\"\ntemperature = \"5 C\"\n"),
              Each(Not(HasSubstr("Milk or egg"))));
}

TEST(Cautions, SpeakOfACultureThatMeetsAHarshDrink) {
  const std::string spirit = start +
                             "water = \"50 %\"\n\"neutral spirit\" = \"15 %\"\nlevain = \"20 "
                             "%\"\n[[stage]]\ndo = \"mix\"\norder = ";
  EXPECT_THAT(of(spirit + "[\"neutral spirit\", \"levain\", \"water\", \"white bread flour\"]\n"),
              Contains(HasSubstr("meets neutral spirit, 40 % undiluted")));
  EXPECT_THAT(of(spirit + "[\"levain\", \"neutral spirit\"]\n"), Contains(HasSubstr("undiluted")));
  EXPECT_THAT(of(spirit + "[\"neutral spirit\", \"white bread flour\", \"levain\"]\n"),
              Each(Not(HasSubstr("undiluted"))));
  EXPECT_THAT(of(spirit + "[\"water\", \"neutral spirit\", \"levain\"]\n"),
              Each(Not(HasSubstr("undiluted"))));
  const std::string wine =
      start +
      "\"white wine\" = \"65 %\"\n\"fresh yeast\" = \"1 %\"\n[[stage]]\ndo = \"mix\"\norder = ";
  EXPECT_THAT(of(wine + "[\"white wine\", \"fresh yeast\", \"white bread flour\"]\n"),
              Contains(HasSubstr("undiluted")));
}

TEST(Cautions, AreShortAndPromiseNothing) {
  std::vector<std::string> all =
      of(start +
         "\"white wine\" = \"50 %\"\n\"neutral spirit\" = \"60 %\"\nmilk = \"60 %\"\negg = \"10 "
         "%\"\nwalnuts = \"10 %\"\nsesame = \"5 %\"\nalmonds = \"5 %\"\nhazelnuts = \"5 %\"\n\"rye "
         "flour\" = \"0 %\"\nstout = \"5 %\"\nlevain = \"20 %\"\nsalt = \"6 %\"\n[[stage]]\ndo = "
         "\"mix\"\norder = [\"neutral spirit\", \"levain\"]\n");
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(BARM_ROOT) + "/examples")) {
    if (!entry.path().string().ends_with("-loaf.toml")) continue;
    const Bowl in = test::bowl(test::example(entry.path().filename()));
    all.insert(all.end(), in.cautions.begin(), in.cautions.end());
  }
  EXPECT_GE(all.size(), 20U);
  for (const std::string& line : all) {
    EXPECT_LE(line.size(), 150U) << line;
    EXPECT_EQ(line.find("safe"), std::string::npos) << line;
  }
}

TEST(Doubts, SayWhatTheLarderDoesNotKnow) {
  const Bake mead = test::bake(test::mead);
  EXPECT_THAT(doubts(mead),
              Contains(HasSubstr("dry mead: total sulphite, free sulphite, sorbate not known")));
  EXPECT_TRUE(doubts(test::bake(test::plain)).empty());
  const Bake perry = test::bake(
      "[bowl]\n\"white bread flour\" = \"1 kg\"\nperry = \"700 g\"\n[bottle.perry]\nacid = \"5 "
      "g/L\"\nsorbate = \"0 mg/L\"\n");
  EXPECT_THAT(doubts(perry), ::testing::ElementsAre("perry: acid read as malic acid, titrated"));
}

}  // namespace

}  // namespace barm::formula

// Drinks that a bake file prepares before they go in, and what it says of the oven.
#include <gmock/gmock.h>

#include "formula/bakes.h"
#include "larder/larder.h"

namespace barm::formula {

namespace {

using larder::Property;
using testing::HasSubstr;

std::string with_prepared(const std::string& how) {
  return "[bowl]\n\"white bread flour\" = \"1 kg\"\n\"my stout\" = \"700 g\"\n"
         "[prepared.\"my stout\"]\n" +
         how;
}

larder::Composition of_the_larder(const char* name) {
  return larder::typical(*larder::find(name)).value();
}

TEST(Prepared, ASimmeredDrinkKeepsItsSugarAndLosesItsAlcohol) {
  const Portion stout = test::bake(with_prepared("of = \"stout\"\nsimmer_to = \"60 %\"\n")).bowl[1];
  const auto c = larder::typical(stout.ingredient).value();
  EXPECT_NEAR(c[Property::maltose], of_the_larder("stout")[Property::maltose] / 0.6, 1e-9);
  EXPECT_LT(c[Property::ethanol], 0.25 * of_the_larder("stout")[Property::ethanol]);
  ASSERT_EQ(stout.made_of.size(), 1U);
  EXPECT_NEAR(stout.made_of[0].needs, 1 / 0.6, 1e-6);
  EXPECT_THAT(stout.reading, HasSubstr("simmered to 60 %"));
}

TEST(Prepared, StepsFollowOneAnotherAndTheBottleHolds) {
  const Portion stout =
      test::bake(with_prepared("of = \"stout\"\nflat = true\nsteep = \"raisins\"\ndose = \"5 %\"\n"
                               "simmer_until = \"2 % vol\"\nthin_to = \"1 % vol\"\n"
                               "[bottle.stout]\nstrength = \"8 % vol\"\n"
                               "price = \"4 EUR/kg\"\n"))
          .bowl[1];
  const auto c = larder::typical(stout.ingredient).value();
  EXPECT_NEAR(c[Property::strength], 0.01, 2e-4);
  ASSERT_EQ(stout.made_of.size(), 3U);  // stout, raisins, water
  EXPECT_EQ(stout.made_of[0].price, 4.0);
  EXPECT_GT(c[Property::glucose], 0);
  EXPECT_LE(c[Property::carbon_dioxide], 1e-3);
}

TEST(Prepared, SaysWhereAndWhatIsWrong) {
  const auto message = [](const std::string& how) {
    const auto read = parse_bake(with_prepared(how), "t.toml");
    return read ? std::string() : read.error().text();
  };
  EXPECT_THAT(message("simmer_to = \"60 %\"\n"), HasSubstr("write of = \"stout\""));
  EXPECT_THAT(message("of = \"stuot\"\nflat = true\n"), HasSubstr("is not in the larder"));
  EXPECT_THAT(message("of = \"salt\"\nflat = true\n"), HasSubstr("is not poured"));
  EXPECT_THAT(message("of = \"stout\"\n"), HasSubstr("nothing is done to it"));
  EXPECT_THAT(message("of = \"stout\"\nsimmer_to = \"1 %\"\n"), HasSubstr("t.toml:6"));
  EXPECT_THAT(message("of = \"stout\"\nsimmer_until = \"0 % vol\"\n"), HasSubstr("never goes"));
  EXPECT_THAT(message("of = \"stout\"\nsteep = \"raisins\"\n"), HasSubstr("has a dose"));
  EXPECT_THAT(message("of = \"stout\"\nthin_to = \"30 % vol\"\n"), HasSubstr("water cannot make"));
  const auto unused = parse_bake(
      "[bowl]\n\"white bread flour\" = \"1 kg\"\nwater = \"700 g\"\n[prepared.x]\nof = "
      "\"stout\"\nflat = true\n",
      "t.toml");
  ASSERT_FALSE(unused.has_value());
  EXPECT_THAT(unused.error().text(), HasSubstr("prepared, but not in the bowl"));
}

const std::string plain = "[bowl]\n\"white bread flour\" = \"1 kg\"\nwater = \"700 g\"\n";

TEST(OvenTable, ReadsWhatItSays) {
  const auto oven =
      test::bake(plain +
                 "[oven]\nform = \"tin\"\nset = [\"250 C\", \"15 min 220 C\"]\n"
                 "bake = \"40 min\"\nsteam = \"10 min\"\nlid = \"5 min\"\nstone = true\n"
                 "fan = false\nloaves = 2\nholds = 4\ncavity = \"60 L\"\n"
                 "power = \"3 kW\"\nroom = \"20 C\"\n")
          .oven;
  ASSERT_TRUE(oven.has_value());
  EXPECT_EQ(oven->form, "tin");
  ASSERT_EQ(oven->set.size(), 2U);
  EXPECT_NEAR(oven->set[1].from.in(minute), 15, 1e-9);
  EXPECT_NEAR(oven->set[1].to.celsius(), 220, 1e-9);
  EXPECT_EQ(oven->loaves, 2);
  EXPECT_NEAR(oven->cavity->in(litre), 60, 1e-9);
  EXPECT_EQ(oven->kilowatts, 3);
  EXPECT_FALSE(test::bake(plain).oven.has_value());
}

TEST(OvenTable, SaysWhereAndWhatIsWrong) {
  const auto message = [](const std::string& what) {
    const auto read = parse_bake(plain + "[oven]\n" + what, "t.toml");
    return read ? std::string() : read.error().text();
  };
  EXPECT_THAT(message("set = \"900 C\"\n"), HasSubstr("t.toml:5:7"));
  EXPECT_THAT(message("set = \"900 C\"\n"), HasSubstr("900 °C bakes no bread"));
  EXPECT_THAT(message("set = [\"10 min 220 C\"]\n"), HasSubstr("what it goes in at"));
  EXPECT_THAT(message("set = [\"250 C\", \"9 min 220 C\", \"8 min 200 C\"]\n"),
              HasSubstr("in the order of time"));
  EXPECT_THAT(message("form = \"square\"\n"), HasSubstr("is no form"));
  EXPECT_THAT(message("loaves = 0\n"), HasSubstr("whole number of loaves"));
  EXPECT_THAT(message("power = \"3\"\n"), HasSubstr("3 kW"));
  EXPECT_THAT(message("cavity = \"1 kg\"\n"), HasSubstr("60 L"));
  EXPECT_THAT(message("learned = [1, 2]\n"), HasSubstr("ten numbers"));
  EXPECT_THAT(message("warm = true\n"), HasSubstr("warm"));
  EXPECT_THAT(message("holds = 4\nloaves = 5\n"), HasSubstr("t.toml:6:10"));
  EXPECT_THAT(message("holds = 4\nloaves = 5\n"), HasSubstr("5 loaves do not fit"));
  EXPECT_THAT(message("bake = \"10 min\"\nlid = \"20 min\"\n"), HasSubstr("than the bake, 10 min"));
}

}  // namespace

}  // namespace barm::formula

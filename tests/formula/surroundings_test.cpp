// Where a dough stands, and the jar beside it, as a bake file says it.
#include <gtest/gtest.h>

#include "formula/amount.h"
#include "formula/read.h"
#include "support/matchers.h"

namespace barm::formula {

namespace {

constexpr const char* flour_only = "flour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n";

std::string wrong(const std::string& rest) {
  const auto bake = parse_bake(flour_only + rest, "x.toml");
  return bake ? "no error" : bake.error().text();
}

TEST(Surroundings, ReadsEveryWord) {
  const auto bake = parse_bake(std::string(flour_only) + R"([[stage]]
do = "mix"
temperature = "26 C"
[[stage]]
do = "bulk"
vessel = "tub"
width = "32 cm"
each = "5 kg"
[[stage]]
do = "cold"
vessel = "tray"
air = "fan"
opens_at = "9 C"
recovers = "90 min"
[jar]
diameter = "70 mm"
height = "14 cm"
dough = "60 g"
temperature = "22 C"
)",
                               "x.toml");
  ASSERT_THAT(bake, ::barm::test::Holds());
  EXPECT_EQ(bake->mixed_temperature(), Temperature::from_celsius(26));
  const Surroundings& bulk = bake->bulk()->surroundings;
  EXPECT_EQ(bulk.vessel, Vessel::tub);
  EXPECT_NEAR(bulk.width->in(millimetre), 320, 1e-9);
  EXPECT_NEAR(bulk.each->in(kilogram), 5, 1e-12);
  EXPECT_FALSE(bulk.fan);
  const Surroundings& cold = bake->stages[2].surroundings;
  EXPECT_TRUE(cold.fan);
  EXPECT_EQ(cold.opens_at, Temperature::from_celsius(9));
  EXPECT_NEAR(cold.recovers.in(hour), 1.5, 1e-12);
  ASSERT_TRUE(bake->jar);
  EXPECT_NEAR(bake->jar->diameter.in(millimetre), 70, 1e-9);
  EXPECT_NEAR(bake->jar->height->in(millimetre), 140, 1e-9);
  EXPECT_TRUE(bake->jar->dough_given);
}

TEST(Surroundings, NamesWhatIsWrong) {
  EXPECT_EQ(
      wrong("[[stage]]\ndo = \"bulk\"\nvessel = \"bucket\"\n"),
      "x.toml:6:10  \"bucket\" is no vessel: write \"tub\", \"bowl\", \"basket\" or \"tray\"");
  EXPECT_EQ(wrong("[[stage]]\ndo = \"cold\"\nair = \"windy\"\n"),
            "x.toml:6:7  air is \"still\" or \"fan\"");
  EXPECT_EQ(
      wrong("[[stage]]\ndo = \"cold\"\nopens_at = \"9 C\"\n"),
      "x.toml:6:12  opens_at and recovers go together: how warm the air is when the dough comes "
      "in, and how long until half of that is gone");
  EXPECT_EQ(wrong("[jar]\ndough = \"60 g\"\n"),
            "x.toml:4:2  the jar needs diameter = \"70 mm\", inside");
  EXPECT_EQ(wrong("[jar]\ndiameter = \"7 m\"\n"), "x.toml:5:12  lies between 15 mm and 300 mm");
  EXPECT_EQ(wrong("[jar]\ndiameter = \"70\"\n"),
            "x.toml:5:12  a length is above zero and names its unit: write \"70 mm\", \"7 cm\" or "
            "\"2.5 in\"");
  EXPECT_EQ(wrong("[[stage]]\ndo = \"fold\"\nafter = \"1 h\"\nvessel = \"tub\"\n").substr(0, 13),
            "x.toml:7:1  \"");
}

TEST(Target, IsWhatTheBulkGoesUntilWhenTheFileHasNone) {
  const std::string bulk = "[[stage]]\ndo = \"bulk\"\nuntil = \"1.6 x\"\n";
  EXPECT_NEAR(parse_bake(flour_only + bulk, "x.toml")->target, 1.6, 1e-12);
  EXPECT_NEAR(
      parse_bake("target = \"tripled\"\n" + (flour_only + bulk), "x.toml")->target, 3, 1e-12);
  EXPECT_TRUE(parse_bake("target = \"By what comes after\"\n" + (flour_only + bulk), "x.toml")
                  ->target_follows);
}

// Common practice, no source: a rye dough rises by a third and never doubles.
TEST(Target, IsWhatTheFlourHoldsWhenNobodySays) {
  const auto of = [](const char* flour) {
    return parse_bake(std::string("[bowl]\n\"") + flour +
                          "\" = \"1 kg\"\nwater = \"700 g\"\n[[stage]]\ndo = \"bulk\"\n",
                      "x.toml")
        ->target;
  };
  EXPECT_NEAR(of("white bread flour"), 2, 1e-12);
  EXPECT_NEAR(of("wholemeal flour"), 1.85, 1e-12);
  EXPECT_GE(of("rye flour"), 1.3);
  EXPECT_LE(of("rye flour"), 1.4);
}

TEST(Target, IsWhatComesAfterTheBulkWhenNobodySays) {
  const std::string bulk = "[[stage]]\ndo = \"bulk\"\n";
  const std::string proof = "[[stage]]\ndo = \"proof\"\nfor = \"2 h\"\n";
  EXPECT_FALSE(parse_bake(flour_only + bulk, "x.toml")->target_follows);
  EXPECT_TRUE(parse_bake(flour_only + bulk + proof, "x.toml")->target_follows);
  EXPECT_FALSE(parse_bake(flour_only + bulk + "for = \"5 h\"\n" + proof, "x.toml")->target_follows);
}

TEST(Length, IsReadInAnyUnit) {
  EXPECT_NEAR(parse_length("7 cm")->in(millimetre), 70, 1e-9);
  EXPECT_NEAR(parse_length("70,5 mm")->in(millimetre), 70.5, 1e-9);
  EXPECT_NEAR(parse_length("2 in")->in(millimetre), 50.8, 1e-9);
  EXPECT_FALSE(parse_length("-3 mm"));
  EXPECT_FALSE(parse_length("70"));
}

}  // namespace

}  // namespace barm::formula

// The draws of a bake: the same whoever makes them, and their levains run in lanes.
#include "forecast/draw.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>

#include "forecast/levain.h"
#include "formula/read.h"

namespace barm::forecast {

namespace {

formula::Bake with_levain(const std::string& kept) {
  auto bake = formula::parse_bake(
      "name = \"x\"\nflour = \"1 kg\"\n[bowl]\n\"white bread flour\" = \"100 %\"\n\"dry mead\" = "
      "\"60 %\"\nsalt = \"2 %\"\nlevain = \"20 %\"\n[levain]\nstarter = \"stiff ripe levain\"\n"
      "flour = \"white bread flour\"\nfeed = \"1:2:1\"\n" +
          kept + "\n[[stage]]\ndo = \"bulk\"\ntemperature = \"24 C\"\nuntil = \"doubled\"\n",
      "x.toml");
  if (!bake) throw std::runtime_error(bake.error().text());
  return std::move(*bake);
}

const char* const kept_so[] = {
    "temperature = \"26 C\"\nsince_feeding = \"5 h\"",
    "temperature = \"26 C\"\nsince_feeding = \"20 h\"",
    "temperature = \"22 C\"",
    "temperature = \"26 C\"\nsince_feeding = \"6 h\"\nin_the_cold = \"3 days\"",
};

// Two hundred draws at once, in threads, and some of them by themselves.
TEST(Draws, AreTheSameWhoeverMakesThem) {
  for (const char* kept : kept_so) {
    const formula::Bake bake = with_levain(kept);
    Options options;
    options.threads = 3;
    const auto many = draws(bake, options, 0, 200);
    ASSERT_TRUE(many.has_value()) << many.error().text();
    for (const int index : {0, 1, 7, 199}) {
      const Draw& one = (*many)[static_cast<std::size_t>(index)];
      const auto alone = draw(bake, options.seed, index);
      ASSERT_TRUE(alone.has_value());
      EXPECT_EQ(one.dough.wild_yeast, alone->dough.wild_yeast) << kept << " " << index;
      EXPECT_EQ(one.dough.ph, alone->dough.ph) << kept << " " << index;
      EXPECT_EQ(one.dough.lag, alone->dough.lag) << kept << " " << index;
      EXPECT_EQ(one.transfer_luck, alone->transfer_luck) << kept << " " << index;
    }
    const auto later = draws(bake, options, 190, 10);
    EXPECT_EQ(later->back().dough.wild_yeast, many->back().dough.wild_yeast) << kept;
  }
}

// Against the same equations run one dough at a time, a hundred times finer.
TEST(Draws, HaveLevainsAsOneRunByItself) {
  const formula::Bake bake = with_levain(kept_so[0]);
  const formula::Levain& levain = *bake.levain;
  std::vector<LevainDraw> fed;
  for (int index = 0; index < 40; ++index) {
    fed.push_back({*larder::typical(levain.starter),
                   *larder::typical(levain.flour),
                   *parameters_of(bake, 1, index)});
  }
  const auto made = fermented(levain, fed, {});
  ASSERT_TRUE(made.has_value());
  for (std::size_t i = 0; i < fed.size(); ++i) {
    const auto dough = freshly_fed(levain, fed[i].starter, fed[i].flour);
    Proving proving;
    proving.temperature = levain.temperature;
    proving.horizon = *levain.since_feeding;
    proving.accuracy.relative = 1e-7;
    const auto course = run(*dough, fed[i].parameters, proving);
    ASSERT_TRUE(course.has_value());
    const auto& c = (*made)[i];
    EXPECT_NEAR(c[larder::Property::ph], course->at_end[kinetics::acidity], 2e-3) << i;
    EXPECT_NEAR(c[larder::Property::gluten_strength], course->at_end[kinetics::strength], 1e-3)
        << i;
  }
}

// A levain used the moment it is fed is what it was fed with.
TEST(Draws, TakeALevainThatHasHadNoTime) {
  const formula::Bake bake = with_levain("temperature = \"26 C\"\nsince_feeding = \"0 h\"");
  const auto made = draw(bake, 1, -1);
  ASSERT_TRUE(made.has_value()) << made.error().text();
  const auto fed = freshly_fed(
      *bake.levain, *larder::typical(bake.levain->starter), *larder::typical(bake.levain->flour));
  EXPECT_NEAR(made->settled.back()[larder::Property::ph], fed->ph, 1e-9);
}

}  // namespace

}  // namespace barm::forecast

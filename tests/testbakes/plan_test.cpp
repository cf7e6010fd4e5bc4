#include "testbakes/plan.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <map>
#include <set>

#include "mead_test.h"
#include "support/matchers.h"
#include "testbakes/observed.h"

namespace barm::testbakes {

namespace {

TEST(Plan, EveryDoughStandsInEveryBlockOnce) {
  auto bake = test::mead_test().value();
  bake.jars = 2;
  const auto jars = plan(bake);
  ASSERT_EQ(jars.size(), 2U * 6U * 2U);
  std::map<std::pair<std::size_t, std::size_t>, int> count;
  std::map<std::size_t, std::set<std::string>> labels;
  std::map<std::size_t, std::set<int>> places;
  for (const Jar& jar : jars) {
    ++count[{jar.day, jar.dough}];
    labels[jar.day].insert(jar.label);
    places[jar.day].insert(jar.place);
  }
  for (const auto& [key, n] : count) EXPECT_EQ(n, 2);
  for (const auto& [day, names] : labels) EXPECT_EQ(names.size(), 12U);
  for (const auto& [day, at] : places) EXPECT_EQ(*at.rbegin(), 12);
}

TEST(Plan, SameSeedSamePlanOtherSeedOtherPlan) {
  auto bake = test::mead_test().value();
  const auto order = [&] {
    std::string out;
    for (const Jar& jar : plan(bake)) out += jar.label + std::to_string(jar.dough);
    return out;
  };
  const std::string first = order();
  EXPECT_EQ(order(), first);
  bake.seed = 8;
  EXPECT_NE(order(), first);
}

// Two test bakes whose files name no seed do not get the same labels.
TEST(Plan, ASeedIsDrawnAndKeptInTheFile) {
  const std::string text =
      "base = \"../mead-loaf.toml\"\ndays = 2\n\n[[dough]]\nname = \"plain\"\nmake = "
      "\"plain\"\n[[dough]]\nname = \"mead\"\n";
  EXPECT_FALSE(test::from_text(text)->seed.has_value());
  std::set<unsigned long long> drawn;
  for (int i = 0; i < 20; ++i) drawn.insert(drawn_seed());
  EXPECT_GT(drawn.size(), 15U);
  const auto kept = test::from_text(with_seed(text, 48213));
  ASSERT_THAT(kept, test::Holds());
  EXPECT_EQ(kept->seed, 48213U);
  EXPECT_EQ(kept->doughs.size(), 2U);
  const auto bare = test::from_text(with_seed("base = \"../mead-loaf.toml\"", 7));
  EXPECT_FALSE(bare.has_value());
  EXPECT_THAT(bare.error().text(), testing::HasSubstr("compares nothing"));
}

TEST(Plan, LabelsAreNotReadWithoutTheSeedTheyWereDrawnFrom) {
  auto bake = test::mead_test().value();
  const std::string label = plan(bake).front().label;
  bake.seed.reset();
  const auto read =
      parse_observed(bake, "day,label,hours,height_mm\n2026-11-28," + label + ",6,87\n", "r.csv");
  ASSERT_THAT(read, test::FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(read.error().message, testing::HasSubstr("names no seed"));
}

TEST(Plan, PlacesAreDrawnEvenly) {
  // Over 3000 blocks each of 6 doughs stands at place 1 about 500 times; sd sqrt(3000/6*5/6)
  // = 20.4, so 6 doughs stay within 4.5 sd but for one run in 20 000.
  auto bake = test::mead_test().value();
  std::map<std::size_t, int> first;
  for (unsigned seed = 0; seed < 1500; ++seed) {
    bake.seed = seed;
    for (const Jar& jar : plan(bake)) {
      if (jar.place == 1) ++first[jar.dough];
    }
  }
  for (std::size_t dough = 0; dough < 6; ++dough) EXPECT_NEAR(first[dough], 500, 92) << dough;
}

}  // namespace

}  // namespace barm::testbakes

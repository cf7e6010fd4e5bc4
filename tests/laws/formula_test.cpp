// Weighing out: mass is conserved, scale does not matter, order does not matter.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <numeric>
#include <random>
#include <sstream>

#include "formula/bowl.h"
#include "formula/read.h"
#include "formula/solve.h"
#include "support/matchers.h"
#include "units/units.h"

namespace barm::formula {

namespace {

using test::Holds;

std::vector<std::string> examples() {
  std::vector<std::string> paths;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(BARM_ROOT) + "/examples")) {
    if (entry.path().string().ends_with("-loaf.toml")) paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

Bake read(const std::string& path) { return read_bake(path).value(); }

Bowl bowl(const Bake& bake) { return in_the_bowl(bake).value(); }

void expect_close(Mass a, Mass b, double within) {
  EXPECT_NEAR(a.si(), b.si(), within * std::abs(b.si()));
}

class EveryExample : public ::testing::TestWithParam<std::string> {};

INSTANTIATE_TEST_SUITE_P(Examples,
                         EveryExample,
                         ::testing::ValuesIn(examples()),
                         [](const auto& example) {
                           std::string name = std::filesystem::path(example.param).stem();
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST_P(EveryExample, LinesAddUpToTheDough) {
  const Bowl in = bowl(read(GetParam()));
  Mass sum;
  for (const Weighed& line : in.lines) sum += line.actual;
  expect_close(sum, in.dough, 1e-12);
}

TEST_P(EveryExample, FlourSharesAddUpToOne) {
  const Bowl in = bowl(read(GetParam()));
  double share = in.levain_flour / in.flour;
  for (const Weighed& line : in.lines) {
    if (line.flour) share += line.share.value();
  }
  EXPECT_NEAR(share, 1, 1e-12);
}

TEST_P(EveryExample, PartsAreNeverMoreThanTheWhole) {
  const Bowl in = bowl(read(GetParam()));
  const Mass parts = in.water + in.ethanol + in.salt + in.hexose + in.sucrose + in.maltose +
                     in.lactose + in.glycerol + in.fat;
  EXPECT_LT(parts.si(), in.dough.si());
  EXPECT_LT(in.added_water.si(), in.water.si());
  EXPECT_LE(in.free_sulphite.si(), in.total_sulphite.si());
  EXPECT_LE(in.flour_buffering, in.buffering);
}

/// The bake twice as large, by whatever says how large it is.
Bake doubled(Bake bake) {
  if (bake.pieces) bake.pieces = 2 * *bake.pieces;
  if (bake.flour_total) bake.flour_total = 2 * *bake.flour_total;
  for (Portion& portion : bake.bowl) {
    if (portion.measure == Measure::mass) portion.amount *= 2;
    if (portion.weighed) portion.weighed = 2 * *portion.weighed;
  }
  return bake;
}

TEST_P(EveryExample, TwiceThePiecesIsTwiceOfEverything) {
  const Bake bake = read(GetParam());
  const Bowl once = bowl(bake);
  const Bowl twice = bowl(doubled(bake));
  for (std::size_t i = 0; i < once.lines.size(); ++i)
    expect_close(twice.lines[i].actual, 2 * once.lines[i].actual, 1e-12);
  expect_close(twice.dough, 2 * once.dough, 1e-12);
  expect_close(twice.water, 2 * once.water, 1e-12);
  expect_close(twice.ethanol, 2 * once.ethanol, 1e-12);
  expect_close(twice.total_sulphite, 2 * once.total_sulphite, 1e-12);
  EXPECT_NEAR(twice.ph.value(), once.ph.value(), 1e-9);
  EXPECT_NEAR(twice.water_activity, once.water_activity, 1e-12);
  EXPECT_NEAR(twice.real_hydration(), once.real_hydration(), 1e-12);
  EXPECT_NEAR(twice.piece.si(), once.piece.si(), 1e-12);
}

TEST_P(EveryExample, OrderOfLinesDoesNotMatter) {
  const Bake bake = read(GetParam());
  const Bowl in = bowl(bake);
  std::mt19937 random(7);
  for (int i = 0; i < 10; ++i) {
    Bake shuffled = bake;
    std::shuffle(shuffled.bowl.begin(), shuffled.bowl.end(), random);
    const Bowl other = bowl(shuffled);
    expect_close(other.dough, in.dough, 1e-12);
    expect_close(other.flour, in.flour, 1e-12);
    expect_close(other.ethanol, in.ethanol, 1e-12);
    EXPECT_NEAR(other.ph.value(), in.ph.value(), 1e-9);
    for (const Weighed& line : in.lines) {
      const auto same = std::find_if(other.lines.begin(),
                                     other.lines.end(),
                                     [&](const Weighed& one) { return one.name == line.name; });
      ASSERT_NE(same, other.lines.end());
      expect_close(same->plan, line.plan, 1e-12);
    }
  }
}

TEST_P(EveryExample, StaysAsItIsInGrams) {
  const Bake bake = read(GetParam());
  const Bowl in = bowl(bake);
  std::vector<Mass> masses;
  for (const Weighed& line : in.lines) masses.push_back(line.actual);
  const Bowl same = bowl(by_weight(bake, masses));
  expect_close(same.flour, in.flour, 1e-12);
  expect_close(same.added_water, in.added_water, 1e-12);
  EXPECT_NEAR(same.ph.value(), in.ph.value(), 1e-9);
  for (std::size_t i = 0; i < in.lines.size(); ++i)
    expect_close(same.lines[i].plan, in.lines[i].actual, 1e-12);
}

TEST_P(EveryExample, MendingLeavesNothingToMend) {
  Bake bake = read(GetParam());
  const Bowl plan = bowl(bake);
  bake.bowl[0].weighed = 1.2 * plan.lines[0].plan;
  const auto mend = formula::mend(bake);
  ASSERT_THAT(mend, Holds());
  ASSERT_TRUE(mend->possible);
  const Bowl now = bowl(bake);
  std::vector<Mass> masses;
  for (const Weighed& line : now.lines) {
    masses.push_back(line.actual);
    for (const auto& one : mend->add) {
      if (one.ingredient == line.name) masses.back() += one.mass;
    }
  }
  const Bowl after = bowl(by_weight(bake, masses));
  for (std::size_t i = 0; i < plan.lines.size(); ++i) {
    EXPECT_NEAR(after.lines[i].actual / after.dough,
                plan.lines[i].plan /
                    std::accumulate(plan.lines.begin(),
                                    plan.lines.end(),
                                    Mass{},
                                    [](Mass sum, const Weighed& line) { return sum + line.plan; }),
                1e-12);
  }
}

// Any mixture of drinks keeps each drink's alcohol: none is made or lost in the bowl.
TEST(Alcohol, IsTheSumOfTheBottles) {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> grams(1, 500);
  for (int i = 0; i < 50; ++i) {
    std::ostringstream text;
    text << "[bowl]\n\"white bread flour\" = \"1 kg\"\n";
    for (const char* drink : {"dry mead", "lager", "white wine", "neutral spirit"}) {
      text << '"' << drink << "\" = \"" << static_cast<int>(grams(random)) << " g\"\n";
    }
    const auto bake = parse_bake(text.str(), "law.toml");
    ASSERT_THAT(bake, Holds());
    const Bowl all = bowl(*bake);
    double volume = 0;
    for (std::size_t k = 1; k < bake->bowl.size(); ++k) {
      const auto c = larder::typical(bake->bowl[k].ingredient).value();
      volume += c[larder::Property::strength] * all.lines[k].volume.si();
    }
    EXPECT_NEAR(volume, all.strength_of_liquid().value() * all.liquid_volume.si(), 1e-9 * volume);
  }
}

}  // namespace

}  // namespace barm::formula

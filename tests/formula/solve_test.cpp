#include "formula/solve.h"

#include <gmock/gmock.h>

#include "formula/bakes.h"

namespace barm::formula {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

Free free(const std::string& name, double least = 0, double most = 1e6) {
  return {name, least * kilogram, most * kilogram};
}

Bowl after(const Bake& bake, const Solution& solution) {
  return test::bowl(by_weight(bake, solution.masses));
}

struct Asked {
  const char* why;
  std::vector<Target> targets;
  std::vector<Free> free;
};

void PrintTo(const Asked& asked, std::ostream* out) { *out << asked.why; }

class Consistent : public ::testing::TestWithParam<Asked> {};

TEST_P(Consistent, TargetsAreMetToAMillionth) {
  const Bake bake = test::example("mead-loaf.toml");
  const auto solution = solve(bake, GetParam().targets, GetParam().free);
  ASSERT_THAT(solution, Holds());
  EXPECT_TRUE(solution->met);
  EXPECT_THAT(solution->conflicts, IsEmpty());
  const Bowl in = after(bake, *solution);
  for (std::size_t i = 0; i < GetParam().targets.size(); ++i) {
    const Target& target = GetParam().targets[i];
    EXPECT_NEAR(reached(target.aim, in), target.value, 1e-6 * target.value) << name(target.aim);
    EXPECT_EQ(solution->reached[i], reached(target.aim, in));
  }
}

INSTANTIATE_TEST_SUITE_P(
    Mead,
    Consistent,
    ::testing::Values(
        Asked{"one of each", {{Aim::real_hydration, 0.70}}, {free("water")}},
        Asked{"alcohol and water",
              {{Aim::alcohol, 0.060}, {Aim::real_hydration, 0.68}},
              {free("dry mead"), free("water")}},
        Asked{"strength as poured",
              {{Aim::strength_of_liquid, 0.045}, {Aim::liquid_total, 2.3}},
              {free("dry mead"), free("water")}},
        Asked{"alcohol in the dough's water", {{Aim::alcohol_in_water, 30}}, {free("dry mead")}},
        Asked{"all at once",
              {{Aim::alcohol_in_water, 25},
               {Aim::salt, 0.055},
               {Aim::dough_weight, 5.4},
               {Aim::real_hydration, 0.66}},
              {free("dry mead"), free("water"), free("salt"), free("white bread flour")}},
        Asked{"sugar", {{Aim::sugar, 0.012}}, {free("dry mead"), free("water")}},
        Asked{"acid", {{Aim::acid, 0.08}}, {free("dry mead")}},
        Asked{"sulphite", {{Aim::sulphite, 30e-6}}, {free("dry mead"), free("water")}},
        Asked{"said twice",
              {{Aim::alcohol, 0.060}, {Aim::alcohol, 0.060}, {Aim::dough_weight, 5.4}},
              {free("dry mead"), free("water")}}));

// A sweet drink's dissolved solids take room too: the density then follows from the answer.
TEST(Solve, MeetsAStrengthThroughDissolvedSugar) {
  const Bake bake = test::bake(
      "[bowl]\n\"white bread flour\" = \"1 kg\"\nliqueur = \"200 g\"\nwater = \"500 g\"\n");
  const auto solution = solve(bake,
                              {{Aim::strength_of_liquid, 0.05}, {Aim::real_hydration, 0.65}},
                              {free("liqueur"), free("water")});
  ASSERT_THAT(solution, Holds());
  EXPECT_TRUE(solution->met);
  EXPECT_NEAR(after(bake, *solution).strength_of_liquid().percent(), 5, 1e-6);
}

TEST(Solve, AloneAgreesWithArithmetic) {
  const Bake bake = test::bake(test::plain);
  const auto solution = solve(bake, {{Aim::dough_weight, 1.780}}, {free("water")});
  ASSERT_THAT(solution, Holds());
  EXPECT_NEAR(test::grams(solution->masses[1]), 750, 1e-6);
  EXPECT_NEAR(test::grams(solution->masses[0]), 1000, 1e-9);
}

TEST(Solve, StaysNearestToThePlan) {
  const Bake bake =
      test::bake("[bowl]\n\"white bread flour\" = \"1 kg\"\nwater = \"400 g\"\nmilk = \"200 g\"\n");
  // d = 60 g more liquid; the least sum of (d_i / plan_i)^2 divides it as plan^2: 4 to 1.
  const auto solution = solve(bake, {{Aim::liquid_total, 0.66}}, {free("water"), free("milk")});
  ASSERT_THAT(solution, Holds());
  EXPECT_NEAR(test::grams(solution->masses[1]), 448, 1e-4);
  EXPECT_NEAR(test::grams(solution->masses[2]), 212, 1e-4);
}

TEST(Solve, RespectsBounds) {
  const Bake bake =
      test::bake("[bowl]\n\"white bread flour\" = \"1 kg\"\nwater = \"400 g\"\nmilk = \"200 g\"\n");
  const auto solution =
      solve(bake, {{Aim::liquid_total, 0.66}}, {free("water", 0, 0.41), free("milk")});
  ASSERT_THAT(solution, Holds());
  EXPECT_TRUE(solution->met);
  EXPECT_NEAR(test::grams(solution->masses[1]), 410, 1e-6);
  EXPECT_NEAR(test::grams(solution->masses[2]), 250, 1e-6);
}

TEST(Solve, AddsWaterToABowlThatHasNone) {
  const Bake bake =
      test::bake("[bowl]\n\"white bread flour\" = \"1 kg\"\n\"dry mead\" = \"700 g\"\n");
  const auto solution = solve(bake,
                              {{Aim::alcohol_in_water, 40}, {Aim::liquid_total, 0.7}},
                              {free("dry mead"), free("water")});
  ASSERT_THAT(solution, Holds());
  EXPECT_TRUE(solution->met);
  ASSERT_EQ(solution->masses.size(), 3U);
  EXPECT_NEAR(test::grams(solution->masses[1] + solution->masses[2]), 700, 1e-6);
  EXPECT_GT(test::grams(solution->masses[2]), 100);
}

TEST(Solve, NamesASmallestConflict) {
  const Bake bake = test::example("mead-loaf.toml");
  const auto solution = solve(
      bake,
      {{Aim::salt, 0.06}, {Aim::alcohol, 0.05}, {Aim::dough_weight, 5.4}, {Aim::alcohol, 0.09}},
      {free("dry mead"), free("water"), free("salt")});
  ASSERT_THAT(solution, Holds());
  EXPECT_FALSE(solution->met);
  EXPECT_THAT(solution->conflicts, ElementsAre("alcohol 50 g", "alcohol 90 g"));
  EXPECT_NEAR(solution->reached[0], 0.06, 1e-5);
  EXPECT_NEAR(solution->reached[1], 0.07, 0.015);
}

TEST(Solve, NamesATargetThatBoundsForbid) {
  const Bake bake = test::example("mead-loaf.toml");
  const auto solution = solve(
      bake, {{Aim::alcohol, 0.2}, {Aim::salt, 0.06}}, {free("dry mead", 0, 1.5), free("salt")});
  ASSERT_THAT(solution, Holds());
  EXPECT_FALSE(solution->met);
  EXPECT_THAT(solution->conflicts, ElementsAre("alcohol 200 g"));
  EXPECT_NEAR(test::grams(solution->masses[1]), 1500, 1);
}

TEST(Solve, RefusesWhatItCannotRead) {
  const Bake bake = test::example("mead-loaf.toml");
  EXPECT_THAT(solve(bake, {}, {}), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(solve(bake, {{Aim::salt, -1}}, {free("salt")}), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(solve(bake, {{Aim::salt, std::nan("")}}, {free("salt")}),
              FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(solve(bake, {}, {free("salt", 2, 1)}), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(solve(bake, {}, {free("salt"), free("sea salt")}), FailsWith(ErrorCode::bad_input));
  const auto honey = solve(bake, {}, {free("honey")});
  ASSERT_THAT(honey, FailsWith(ErrorCode::not_found));
  EXPECT_EQ(
      honey.error().message,
      "\"honey\" is not in the bowl. There are: white bread flour, dry mead, water, salt, levain.");
}

TEST(Solve, WithoutTargetsIsThePlan) {
  const Bake bake = test::example("stout-loaf.toml");
  const auto solution = solve(bake, {}, {free("stout")});
  ASSERT_THAT(solution, Holds());
  EXPECT_NEAR(test::grams(solution->masses[2]), 900, 1e-6);
}

}  // namespace

}  // namespace barm::formula

#include "kinetics/blend.h"

#include <gtest/gtest.h>

#include "kinetics/system.h"
#include "kinetics/terms_of.h"
#include "numerics/dormand_prince.h"
#include "support/doughs.h"
#include "support/matchers.h"

namespace barm::kinetics {

namespace {

using test::Holds;

// The dough some hours after mixing at 24 C.
DoughState standing(const Dough& dough, double hours, double flour) {
  const auto p = book();
  const auto t = terms(dough, p, 24.0, 24.0);
  const System<double> system(t, present(dough));
  DoughState out{dough, at_mixing(dough, p), flour};
  double time = 0;
  numerics::Statistics statistics;
  numerics::integrate<state_count>(
      system, time, out.state, hours, {}, statistics, [](const auto&) { return true; });
  return out;
}

const DoughState& wine() {
  static const DoughState dough = standing(test::wine_dough(), 20, 0.56);
  return dough;
}

const DoughState& plain() {
  static const DoughState dough = standing(test::plain_dough(), 2, 0.56);
  return dough;
}

TEST(Blend, IsTheDoughItselfWhenNothingIsAdded) {
  const auto none = blend(wine(), plain(), 0);
  ASSERT_THAT(none, Holds());
  EXPECT_EQ(none->state, wine().state);
  EXPECT_EQ(none->dough.water_phase, wine().dough.water_phase);
  const auto trace = blend(wine(), plain(), 1e-9);
  ASSERT_THAT(trace, Holds());
  for (std::size_t i = 0; i < state_count; ++i)
    EXPECT_NEAR(trace->state[i], wine().state[i], 1e-6 * (1 + std::abs(wine().state[i]))) << i;
}

TEST(Blend, ConservesWhatAScaleWeighs) {
  const double share = 0.3;
  const auto both = blend(wine(), plain(), share);
  ASSERT_THAT(both, Holds());
  const auto conserved = [&](auto of) {
    EXPECT_NEAR(of(*both), (1 - share) * of(wine()) + share * of(plain()), 1e-12 * of(wine()));
  };
  conserved([](const DoughState& d) { return d.ethanol(); });
  conserved([](const DoughState& d) { return d.lactate(); });
  conserved([](const DoughState& d) { return d.acetate(); });
  conserved([](const DoughState& d) { return d.dough.water; });
  conserved([](const DoughState& d) { return d.dough.salt; });
  conserved([](const DoughState& d) { return d.state[wild_yeast]; });
  conserved([](const DoughState& d) {
    return d.state[hexose] + d.state[maltose] + d.state[maltose_to_come];
  });
  conserved([](const DoughState& d) { return d.state[gas_held]; });
}

TEST(Blend, LowersAlcoholExactly) {
  const Dough plain = test::plain_dough();
  const auto fresh = standing(plain, 0, 0.56);
  ASSERT_EQ(fresh.ethanol(), 0);
  for (const double share : {0.1, 0.25, 0.5, 0.9}) {
    const auto thinned = blend(wine(), fresh, share);
    ASSERT_THAT(thinned, Holds());
    EXPECT_NEAR(thinned->ethanol(), (1 - share) * wine().ethanol(), 1e-12);
  }
}

TEST(Blend, MixesTheSameTwiceIntoTheSame) {
  const auto same = blend(wine(), wine(), 0.4);
  ASSERT_THAT(same, Holds());
  for (std::size_t i = 0; i < state_count; ++i)
    EXPECT_NEAR(same->state[i], wine().state[i], 1e-8 * (1 + std::abs(wine().state[i]))) << i;
  EXPECT_NEAR(same->dough.water_phase, wine().dough.water_phase, 1e-12);
}

TEST(Blend, LiesBetweenTheTwo) {
  for (const double share : {0.2, 0.5, 0.8}) {
    const auto both = blend(wine(), plain(), share);
    ASSERT_THAT(both, Holds());
    for (const State what : {acidity, strength, wild_awake, bacteria_awake}) {
      EXPECT_GE(both->state[what], std::min(wine().state[what], plain().state[what])) << what;
      EXPECT_LE(both->state[what], std::max(wine().state[what], plain().state[what])) << what;
    }
  }
}

TEST(Blend, TakesTheSameWayInEitherOrder) {
  const auto one = blend(wine(), plain(), 0.3);
  const auto other = blend(plain(), wine(), 0.7);
  ASSERT_THAT(one, Holds());
  ASSERT_THAT(other, Holds());
  EXPECT_NEAR(one->state[acidity], other->state[acidity], 1e-9);
  EXPECT_NEAR(one->dough.water_phase, other->dough.water_phase, 1e-12);
}

}  // namespace

}  // namespace barm::kinetics

#include "heat/mixer.h"

#include <gtest/gtest.h>

#include "support/matchers.h"

namespace barm::heat {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Holds;

HeatCapacity capacity(double j) { return HeatCapacity::from_si(j); }

std::vector<Poured> dough(double liquid) {
  return {{"flour", 10.0 * kilogram, capacity(1990), Temperature::from_celsius(22)},
          {"water", 6.5 * kilogram, capacity(4180), Temperature::from_celsius(liquid)},
          {"salt", 0.2 * kilogram, capacity(880), Temperature::from_celsius(22)}};
}

Mixer mixer(double watts) {
  Mixer out;
  out.friction = watts * (watt / kilogram);
  out.runs = 8.0 * minute;
  out.room_share = 0.05;
  out.room = Temperature::from_celsius(25);
  return out;
}

TEST(Mixed, IsTheMeanByMassAndCapacityAndTheDegreesAddUp) {
  const Warmth plain = mixed(dough(10), {}, {}, {});
  const double c = 10 * 1990 + 6.5 * 4180 + 0.2 * 880;
  EXPECT_NEAR(plain.dough.celsius(), (10 * 1990 * 22 + 6.5 * 4180 * 10 + 0.2 * 880 * 22) / c, 1e-9);
  const Warmth all = mixed(dough(10), 1.0 * kilogram, 20000.0 * joule, mixer(20));
  const double sum = all.by_mixing_alcohol.in(kelvin) + all.by_friction.in(kelvin) +
                     all.by_ice.in(kelvin) + all.by_room.in(kelvin);
  EXPECT_NEAR(all.dough.celsius() - plain.dough.celsius(), sum, 1e-9);
  EXPECT_LT(all.by_ice.in(kelvin), -6);
}

TEST(LiquidFor, TurnsTheBalanceRound) {
  for (const double wanted : {22.0, 26.0}) {
    const auto liquid = liquid_for(Temperature::from_celsius(wanted),
                                   dough(0),
                                   {1},
                                   1,
                                   Temperature::from_celsius(2),
                                   15000.0 * joule,
                                   mixer(15));
    ASSERT_THAT(liquid, Holds());
    EXPECT_EQ(liquid->ice.si(), 0);
    const Warmth got = mixed(dough(liquid->liquid.celsius()), {}, 15000.0 * joule, mixer(15));
    EXPECT_NEAR(got.dough.celsius(), wanted, 1e-9);
  }
}

TEST(LiquidFor, TakesIceWhereTheTapIsTooWarm) {
  const auto liquid = liquid_for(Temperature::from_celsius(20),
                                 dough(0),
                                 {1},
                                 1,
                                 Temperature::from_celsius(18),
                                 {},
                                 mixer(25));
  ASSERT_THAT(liquid, Holds());
  EXPECT_GT(liquid->ice.in(gram), 300);
  auto poured = dough(18);
  poured[1].mass = poured[1].mass - liquid->ice;
  EXPECT_NEAR(mixed(poured, liquid->ice, {}, mixer(25)).dough.celsius(), 20, 1e-9);
  EXPECT_THAT(liquid_for(Temperature::from_celsius(-10),
                         dough(0),
                         {1},
                         1,
                         Temperature::from_celsius(18),
                         {},
                         mixer(25)),
              FailsWith(ErrorCode::cannot_be_met));
  EXPECT_THAT(liquid_for(Temperature::from_celsius(60),
                         dough(0),
                         {1},
                         1,
                         Temperature::from_celsius(18),
                         {},
                         mixer(0)),
              FailsWith(ErrorCode::cannot_be_met));
}

TEST(Friction, IsLearnedFromTwoReadingsAndMore) {
  const std::vector<MixerReading> two{{2.0 * minute, Temperature::from_celsius(21)},
                                      {8.0 * minute, Temperature::from_celsius(24)}};
  const auto learned = learn_friction(two, capacity(2900));
  ASSERT_THAT(learned, Holds());
  EXPECT_NEAR(learned->power.si(), 2900 * 3.0 / 360, 1e-9);
  auto three = two;
  three.push_back({14.0 * minute, Temperature::from_celsius(27)});
  const auto better = learn_friction(three, capacity(2900));
  ASSERT_THAT(better, Holds());
  EXPECT_NEAR(better->power.si(), learned->power.si(), 1e-9);
  EXPECT_LT(better->spread.si(), learned->spread.si());
  EXPECT_THAT(learn_friction(std::span(two).first(1), capacity(2900)),
              FailsWith(ErrorCode::bad_input));
  const std::vector<MixerReading> colder{two[1], {9.0 * minute, Temperature::from_celsius(20)}};
  EXPECT_THAT(learn_friction(colder, capacity(2900)), FailsWith(ErrorCode::bad_input));
}

TEST(Friction, IsInAsMuchDoubtAsItsReadingsLieOffALine) {
  const auto learned = [](double middle) {
    return *learn_friction(
        std::vector<MixerReading>{{2.0 * minute, Temperature::from_celsius(21)},
                                  {5.0 * minute, Temperature::from_celsius(middle)},
                                  {8.0 * minute, Temperature::from_celsius(24)}},
        capacity(2900));
  };
  const Friction on_a_line = learned(22.5);
  const Friction off = learned(26.5);
  EXPECT_NEAR(on_a_line.off.in(kelvin), 0, 1e-9);
  EXPECT_GT(off.off.in(kelvin), poor_line);
  EXPECT_GT(off.spread.si(), 5 * on_a_line.spread.si());
}

}  // namespace

}  // namespace barm::heat

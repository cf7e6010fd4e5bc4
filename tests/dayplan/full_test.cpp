#include "dayplan/full.h"

#include <gmock/gmock.h>

#include "dayplan/check.h"
#include "dayplan/plan.h"
#include "days.h"

namespace barm::dayplan {

namespace {

using testing::IsEmpty;
using testing::SizeIs;

/// One hour of the oven between two hours [min].
Bake baked(const std::string& name, Minutes from, Minutes bread, int decks = 1) {
  Way way{"", {{"load", 5, {{hands}, {deck, decks, true}}}, {"unload", 5, {{hands}}}}, {}};
  way.legs = {{"oven", 0, 1, {60}, {0}}, {"cooling", 1, 2, {0}}};
  if (from > 0) {
    // Nothing may be loaded earlier: the dough is not ready.
    way.steps.insert(way.steps.begin(), {"mix", 5, {{hands}}});
    for (Leg& leg : way.legs) {
      ++leg.from;
      ++leg.to;
    }
    way.legs.push_back({"bulk", 0, 1, {static_cast<float>(from)}, {for_ever}});
  }
  return {name, bread, {way}};
}

Day oven_day(std::vector<Bake> bakes) {
  Day day{marsh_house(4), std::move(bakes), 5};
  day.house[hands].closed.clear();
  day.house[deck].capacity = 1;
  return day;
}

// By hand: unloading takes 5 min, so the last bread leaves the oven after 150 min; three hours of
// one oven do not go into that.
TEST(AnOverFullDay, IsShownByWhatMustBeHeld) {
  const Day day = oven_day({baked("a", 0, 155), baked("b", 0, 155), baked("c", 0, 155)});
  const auto full = over_full(day);
  ASSERT_TRUE(full);
  EXPECT_EQ(full->resource, deck);
  EXPECT_THAT(full->bakes, SizeIs(3));
  EXPECT_EQ(full->needed, 180);
  EXPECT_EQ(full->there, 150);
  EXPECT_EQ(plan(day)->stuck.full->needed, 180);
}

TEST(AnOverFullDay, NamesOnlyWhoIsInIt) {
  // d has all evening.
  const Day day =
      oven_day({baked("d", 0, 600), baked("a", 0, 155), baked("b", 0, 155), baked("c", 0, 155)});
  EXPECT_THAT(over_full(day)->bakes, testing::ElementsAre(1, 2, 3));
}

TEST(AFullDay, ThatJustGoesIsNotOverFull) {
  EXPECT_FALSE(over_full(oven_day({baked("a", 0, 125), baked("b", 0, 125)})));
}

// Through one night in a fridge that may be too small, searched without the proof.
TEST(AnOverFullDay, NeverHasAPlan) {
  int shown = 0;
  int searched = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    Day day = random_day(2 + seed % 4, seed, seed, 20, 4);
    day.house[hands].closed.clear();
    day.house[deck].capacity = 6;
    day.house[fridge].capacity = 4;
    Search search;
    for (std::size_t b = 0; b < day.bakes.size(); ++b) {
      day.bakes[b].wanted = (21 + static_cast<Minutes>(seed % 7)) * an_hour;
      day.bakes[b].ways.erase(day.bakes[b].ways.begin());
      search.bakes.push_back({b, 0, nullptr});
    }
    search.failures = 20'000;
    const Found found = lay(day, search);
    searched += found.courses.empty() ? 0 : 1;
    if (!over_full(day)) continue;
    ++shown;
    EXPECT_THAT(found.courses, IsEmpty()) << "day " << seed;
  }
  EXPECT_GE(shown, 5) << "days on which it says anything";
  EXPECT_GE(searched, 5) << "days that have a plan";
}

// Two doughs once lay on a bench for one: that is over, and the rest of the day is planned.
TEST(WhatWasHeldBefore, IsOver) {
  Day day{marsh_house(2), {}, 5};
  day.house[bench].capacity = 1;
  day.house[hands].closed.clear();
  numerics::Random random(1);
  Hours sure;
  sure.doubt = 0;
  for (const char* name : {"mead loaf", "stout loaf"}) {
    Bake bake{name, 12 * an_hour, {way("", sure, false, random, 1)}};
    auto& steps = bake.ways.front().steps;
    for (std::size_t i = 0; i <= 3; ++i) steps[i].begun = -600 + 180 * static_cast<Minutes>(i);
    steps[3].begun = -20;  // both are divided at once
    day.bakes.push_back(std::move(bake));
  }
  const auto planned = plan(day);
  ASSERT_TRUE(planned->plan);
  EXPECT_THAT(check(day, *planned->plan), IsEmpty());
}

}  // namespace

}  // namespace barm::dayplan

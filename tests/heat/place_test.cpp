// The air around a dough.
#include "heat/place.h"

#include <gtest/gtest.h>

#include "heat/celsius.h"

namespace barm::heat {

namespace {

using test::celsius;

TEST(Place, AFridgeComesBackByHalves) {
  const Place fridge{.settles = celsius(4), .opens = celsius(12), .halves = 1.5 * hour};
  EXPECT_NEAR(fridge.celsius_at(0), 12, 1e-12);
  EXPECT_NEAR(fridge.celsius_at(1.5), 8, 1e-12);
  EXPECT_NEAR(fridge.celsius_at(3), 6, 1e-12);
  EXPECT_NEAR(fridge.celsius_at(60), 4, 1e-9);
}

TEST(Place, WithoutHalvesItIsAtOnceWhereItSettles) {
  const Place fridge{.settles = celsius(4), .opens = celsius(12)};
  EXPECT_EQ(fridge.celsius_at(0), 4);
}

TEST(Place, ALoggedRoomIsFlatBeyondItsReadings) {
  const Place room{.logged = {{1.0 * hour, celsius(20)}, {3.0 * hour, celsius(24)}}};
  EXPECT_EQ(room.celsius_at(0), 20);
  EXPECT_NEAR(room.celsius_at(2), 22, 1e-12);
  EXPECT_EQ(room.celsius_at(9), 24);
}

}  // namespace

}  // namespace barm::heat

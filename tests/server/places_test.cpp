#include "server/wire/internal/places.h"

#include <gtest/gtest.h>

#include <chrono>
#include <string>
#include <vector>

namespace barm::test {
namespace {

using server::internal::Holder;
using server::internal::Room;
using server::internal::room_for_the_last;

constexpr std::size_t places = 8;

/// A holder that came at second `since`.
Holder stranger(const std::string& address, int since) {
  return {.address = address,
          .since = std::chrono::steady_clock::time_point(std::chrono::seconds(since))};
}

Holder known(const std::string& address, int since) {
  Holder out = stranger(address, since);
  out.known = true;
  return out;
}

Holder at_work(Holder holder) {
  holder.working = true;
  return holder;
}

TEST(Places, AreForWhoeverComesWhileThereAreAny) {
  const Room room = room_for_the_last({known("a", 1), stranger("b", 2), stranger("c", 3)}, places);
  EXPECT_TRUE(room.there);
  EXPECT_FALSE(room.turned_out);
}

TEST(Places, OfOneAddressAreAQuarterForStrangers) {
  const Room room = room_for_the_last(
      {stranger("other", 0), stranger("b", 2), stranger("b", 1), stranger("b", 3)}, places);
  EXPECT_TRUE(room.there);
  EXPECT_EQ(room.turned_out, 2U) << "its own longest, and nobody else's";
}

TEST(Places, OfAllStrangersAreAHalf) {
  const Room room = room_for_the_last({stranger("phone", 0),
                                       stranger("b", 2),
                                       stranger("b", 1),
                                       stranger("c", 0),
                                       stranger("fresh", 3)},
                                      places);
  EXPECT_TRUE(room.there);
  EXPECT_EQ(room.turned_out, 2U) << "of the address that holds most";
}

TEST(Places, OfThePairedAreNotTakenWhileAStrangerHoldsOne) {
  std::vector<Holder> holders(places - 1, known("phone", 0));
  holders.push_back(stranger("b", 5));
  holders.push_back(known("phone", 6));
  EXPECT_EQ(room_for_the_last(holders, places).turned_out, places - 1);
  holders[places - 1] = known("phone", 5);
  EXPECT_EQ(room_for_the_last(holders, places).turned_out, 0U) << "then the longest idle";
}

TEST(Places, OfThoseWhoWaitForAnAnswerAreNeverTaken) {
  std::vector<Holder> holders(places, at_work(known("phone", 0)));
  holders.push_back(known("phone", 1));
  const Room room = room_for_the_last(holders, places);
  EXPECT_FALSE(room.there);
  EXPECT_FALSE(room.turned_out);
  holders = {at_work(stranger("b", 0)), at_work(stranger("b", 0)), stranger("b", 1)};
  EXPECT_FALSE(room_for_the_last(holders, places).there);
}

}  // namespace
}  // namespace barm::test

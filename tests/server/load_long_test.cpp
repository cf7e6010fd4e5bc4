// Two hundred clients for a minute.
#include <gtest/gtest.h>

#include "server/load.h"

namespace barm::test {
namespace {

using namespace std::chrono_literals;

TEST(LoadOfAMinute, EveryRequestOfTwoHundredClientsIsReplied) {
  allow_lines(500);
  const Running running;
  Tally tally;
  ask_with_many(running.port(), 200, 60s, tally);
  RecordProperty("answered", tally.answered.load());
  RecordProperty("told_to_come_again", tally.come_again.load());
  EXPECT_EQ(tally.without_a_reply, 0);
  EXPECT_EQ(tally.without_a_time, 0);
  EXPECT_GT(tally.answered, 10'000);
}

}  // namespace
}  // namespace barm::test

// A writer killed at any moment, and two writers at once. Here 150 times, in about 15 seconds;
// BARM_KILLS=2000 in the environment runs it longer.
#include <gmock/gmock.h>

#include <chrono>
#include <cstdlib>
#include <random>
#include <thread>

#include "../support/matchers.h"
#include "daybooks.h"
#include "programs.h"

namespace barm::storage::test {

namespace {

using barm::test::Holds;
using testing::IsEmpty;

int kills_wanted() {
  const char* wanted = std::getenv("BARM_KILLS");
  return wanted == nullptr ? 150 : std::atoi(wanted);
}

TEST(Killed, EveryAcknowledgedReadingIsThere) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  std::mt19937 random(20261129);
  std::uniform_int_distribution<int> microseconds(2000, 70000);
  std::size_t acknowledged = 0;
  for (int round = 0; round < kills_wanted(); ++round) {
    Program writer({BARM_WRITER, file, "round" + std::to_string(round), "100000"});
    std::this_thread::sleep_for(std::chrono::microseconds(microseconds(random)));
    writer.kill_now();
    const auto ids = writer.lines();
    if (ids.empty()) continue;
    acknowledged += ids.size();
    auto daybook = Daybook::open(file);
    ASSERT_THAT(daybook, Holds()) << "round " << round;
    for (const std::string& id : ids)
      ASSERT_THAT(daybook->get<Reading>(id), Holds()) << "acknowledged and lost";
    // At most the one that was being written may be there beyond those acknowledged.
    if (round % 25 == 24) {
      ASSERT_THAT(daybook->check(), Holds());
      ASSERT_THAT(*daybook->check(), IsEmpty());
    }
  }
  auto daybook = Daybook::open(file);
  ASSERT_THAT(daybook, Holds());
  const auto there = daybook->count(Kind::reading);
  ASSERT_THAT(there, Holds());
  EXPECT_GT(acknowledged, 100U) << "the writer hardly came to write: nothing was tested";
  EXPECT_GE(static_cast<std::size_t>(*there), acknowledged);
  EXPECT_LE(static_cast<std::size_t>(*there),
            acknowledged + static_cast<std::size_t>(kills_wanted()));
  // Every reading has its entry in the feed of changes, written in the same transaction.
  const auto changes = daybook->changes_after(0, 10000000);
  ASSERT_THAT(changes, Holds());
  EXPECT_EQ(changes->changes.size(), static_cast<std::size_t>(*there) + 1);
  std::vector<std::string> left;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
    const std::string name = entry.path().filename().string();
    if (name.starts_with("daybook.barm.new-")) left.push_back(name);
  }
  // A kill while the file itself is made leaves a draft behind, never half a daybook.
  EXPECT_LE(left.size(), static_cast<std::size_t>(kills_wanted()));
}

TEST(TwoPrograms, WriteToOneFileAndNothingIsLost) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  Program one({BARM_WRITER, file, "one", "150"});
  Program other({BARM_WRITER, file, "other", "150"});
  EXPECT_EQ(one.lines().size(), 150U);
  EXPECT_EQ(other.lines().size(), 150U);
  EXPECT_EQ(one.wait_for_end(), 0);
  EXPECT_EQ(other.wait_for_end(), 0);
  auto daybook = Daybook::open(file);
  ASSERT_THAT(daybook, Holds());
  EXPECT_EQ(*daybook->count(Kind::reading), 300);
  EXPECT_THAT(*daybook->check(), IsEmpty());
}

}  // namespace

}  // namespace barm::storage::test

// A writer killed at any moment, and two writers at once. Here 60 times, in about three seconds;
// BARM_KILLS=2000 in the environment runs it longer (tools/long).
#include <gmock/gmock.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
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
  return wanted == nullptr ? 60 : std::atoi(wanted);
}

// A draft of a daybook: what a kill leaves behind while the file itself is made.
bool draft_left(const Folder& folder) {
  const std::filesystem::directory_iterator files(folder.path());
  return std::any_of(begin(files), end(files), [](const auto& file) {
    return file.path().filename().string().starts_with("daybook.barm.new-");
  });
}

// What was said to be saved is there after the kill, and at most the one reading beyond it that was
// being written.
TEST(Killed, EveryAcknowledgedReadingIsThere) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  ASSERT_THAT(Daybook::open(file, {.create = true}), Holds());
  std::mt19937 random(20261129);
  std::uniform_int_distribution<int> microseconds(2000, 70000);
  std::size_t acknowledged = 0;
  std::size_t there = 0;
  for (int round = 0; round < kills_wanted(); ++round) {
    Program writer({BARM_WORKER, "write", file, "round" + std::to_string(round), "100000"});
    std::this_thread::sleep_for(std::chrono::microseconds(microseconds(random)));
    writer.kill_now();
    const auto ids = writer.lines();
    acknowledged += ids.size();
    auto daybook = Daybook::open(file);
    ASSERT_THAT(daybook, Holds()) << "round " << round;
    for (const std::string& id : ids)
      ASSERT_THAT(daybook->get<ReadingRecord>(id), Holds()) << "acknowledged and lost";
    const auto now = static_cast<std::size_t>(daybook->count(Kind::reading).value());
    EXPECT_GE(now, there + ids.size()) << "round " << round;
    EXPECT_LE(now, there + ids.size() + 1) << "round " << round;
    there = now;
    if (round % 20 == 19) {
      ASSERT_THAT(daybook->check(), Holds());
      ASSERT_THAT(*daybook->check(), IsEmpty());
    }
  }
  EXPECT_GT(acknowledged, 100U) << "the writer hardly came to write: nothing was tested";
  EXPECT_FALSE(draft_left(folder)) << "the file was there all the time";
  // Every reading has its entry in the feed of changes, written in the same transaction.
  const auto changes = Daybook::open(file)->changes_after(0, 10000000);
  ASSERT_THAT(changes, Holds());
  EXPECT_EQ(changes->changes.size(), there + 1);
}

// While the file itself is made: a kill leaves a draft behind or a whole daybook, never half of
// one.
TEST(Killed, WhileItIsMadeADaybookIsWholeOrNotThere) {
  const auto begun = std::chrono::steady_clock::now();
  const Folder once;
  EXPECT_EQ(Program({BARM_WORKER, "write", once / "daybook.barm", "round", "0"}).wait_for_end(), 0);
  AboutTheChange life(std::chrono::steady_clock::now() - begun, 20261130);
  int made = 0;
  int drafts = 0;
  for (int round = 0; round < kills_wanted() / 2; ++round) {
    const Folder folder;
    const std::string file = folder / "daybook.barm";
    {
      Program writer({BARM_WORKER, "write", file, "round", "0"});
      std::this_thread::sleep_for(life.next());
      writer.kill_now();
    }
    drafts += draft_left(folder) ? 1 : 0;
    const bool there = std::filesystem::exists(file);
    life.seen(there);
    if (!there) continue;
    ++made;
    auto daybook = Daybook::open(file);
    ASSERT_THAT(daybook, Holds()) << "round " << round;
    EXPECT_THAT(*daybook->check(), IsEmpty()) << "round " << round;
  }
  EXPECT_GT(made, 0) << "killed too early each time";
  EXPECT_GT(drafts, 0) << "never killed while it was made";
}

TEST(TwoPrograms, WriteToOneFileAndNothingIsLost) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  Program one({BARM_WORKER, "write", file, "one", "150"});
  Program other({BARM_WORKER, "write", file, "other", "150"});
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

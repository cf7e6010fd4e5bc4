#include "storage/pool.h"

#include <gmock/gmock.h>

#include <atomic>
#include <thread>

#include "../support/matchers.h"
#include "daybooks.h"

namespace barm::storage::test {

namespace {

using barm::test::Holds;
using testing::IsEmpty;

TEST(Pool, ManyThreadsWriteAndReadWithoutLosingAnything) {
  const Folder folder;
  Pool pool(folder / "daybook.barm", {.create = true, .read_only = false, .busy_ms = 60000});
  {
    auto first = pool.lease();
    ASSERT_THAT(first, Holds());
    ASSERT_THAT((*first)->save(a_bake("b"), noon), Holds());
  }
  constexpr int threads = 8;
  constexpr int each = 25;
  std::atomic<int> failed = 0;
  std::vector<std::thread> running;
  for (int t = 0; t < threads; ++t) {
    running.emplace_back([&, t] {
      for (int i = 0; i < each; ++i) {
        auto daybook = pool.lease();
        const std::string id = std::to_string(t) + "-" + std::to_string(i);
        if (!daybook || !(*daybook)->save(a_reading(id, "b"), noon) ||
            !(*daybook)->get<ReadingRecord>(id) || !(*daybook)->last_change())
          ++failed;
      }
    });
  }
  for (std::thread& thread : running) thread.join();
  EXPECT_EQ(failed, 0);
  auto daybook = pool.lease();
  ASSERT_THAT(daybook, Holds());
  EXPECT_EQ(*(*daybook)->count(Kind::reading), threads * each);
  EXPECT_THAT(*(*daybook)->check(), IsEmpty());
}

TEST(Pool, OnlyOneOfTwoRacingChangesWins) {
  const Folder folder;
  Pool pool(folder / "daybook.barm", {.create = true});
  {
    auto first = pool.lease();
    ASSERT_THAT(first, Holds());
    ASSERT_THAT((*first)->save(a_bake("b"), noon), Holds());
  }
  for (int round = 1; round <= 20; ++round) {
    std::atomic<int> won = 0;
    std::atomic<int> conflicts = 0;
    const auto change = [&](const std::string& note) {
      auto daybook = pool.lease();
      if (!daybook) return;
      Bake bake = a_bake("b");
      bake.revision = round;
      bake.note = note + std::to_string(round);
      const auto saved = (*daybook)->save(bake, noon);
      if (saved) ++won;
      if (!saved && saved.error().code == ErrorCode::conflict) ++conflicts;
    };
    std::thread one(change, "one");
    std::thread other(change, "other");
    one.join();
    other.join();
    EXPECT_EQ(won, 1);
    EXPECT_EQ(conflicts, 1);
  }
}

}  // namespace

}  // namespace barm::storage::test

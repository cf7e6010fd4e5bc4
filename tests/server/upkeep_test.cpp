// What is done for a daybook while it is open, by a clock of the test's own.
#include "server/records/upkeep.h"

#include <gmock/gmock.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <mutex>
#include <thread>

#include "storage/copies.h"
#include "support/folder.h"
#include "support/matchers.h"

namespace barm::server {

namespace {

using barm::test::Holds;
using storage::Kind;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

constexpr time::Instant first_noon{1795953600};  // 2026-11-29T12:00:00Z

class OpenForDays : public testing::Test {
 protected:
  void SetUp() override {
    auto daybook = storage::Daybook::open(path_, {.create = true});
    ASSERT_THAT(daybook, Holds());
    save("b0");
  }

  void open() {
    upkeep_.emplace(
        pool_,
        [this](const std::string& words) {
          const std::scoped_lock lock(mutex_);
          told_.push_back(words);
        },
        Clocks{[this] {
                 ++looks_;
                 return service::Now{{wall_}, time::Zone::fixed(0)};
               },
               [this] { return running_.load(); },
               std::chrono::milliseconds(1)});
    wait();
  }

  void close() { upkeep_.reset(); }

  // Until the clock was looked at once more and what follows from it is done.
  void wait() const {
    const int seen = looks_;
    for (int i = 0; i < 5000 && looks_ < seen + 2; ++i)
      std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }

  void pass(std::int64_t seconds) {
    running_ += seconds;
    wall_ += seconds;
    wait();
  }

  void set_clock(std::int64_t by) {
    wall_ += by;
    wait();
  }

  void save(const std::string& id) {
    storage::Bake bake;
    bake.id = id;
    bake.title = "Marsh loaf";
    bake.state = "draft";
    auto lease = pool_.lease();
    ASSERT_THAT(lease, Holds());
    ASSERT_THAT((*lease)->save(bake, time::Instant{wall_}), Holds());
  }

  std::vector<std::string> told() {
    const std::scoped_lock lock(mutex_);
    return told_;
  }

  [[nodiscard]] std::size_t copies() const { return storage::backups_of(path_).size(); }

  barm::test::Folder folder_;
  std::string path_ = folder_ / "daybook.barm";
  storage::Pool pool_{path_, {.create = true}};
  std::atomic<std::int64_t> wall_ = first_noon.seconds;
  std::atomic<std::int64_t> running_ = 0;
  mutable std::atomic<int> looks_ = 0;
  std::mutex mutex_;
  std::vector<std::string> told_;
  std::optional<Upkeep> upkeep_;
};

TEST_F(OpenForDays, MakesACopyOnEachDayOnWhichSomethingWasWritten) {
  open();
  for (int day = 1; day < 5; ++day) {
    save("b" + std::to_string(day));
    pass(time::seconds_a_day);
  }
  pass(3 * time::seconds_a_day);
  close();
  EXPECT_EQ(copies(), 5U);
  EXPECT_THAT(told(), IsEmpty());
}

TEST_F(OpenForDays, TellsWhenTheClockIsSet) {
  open();
  set_clock(40 * time::seconds_a_day);
  set_clock(-40 * time::seconds_a_day);
  close();
  ASSERT_THAT(told(), SizeIs(3));
  EXPECT_THAT(told()[0], HasSubstr("set forward by 40 days; it says 2027-01-08T12:00 now"));
  EXPECT_THAT(told()[1], HasSubstr("40 days after the daybook was last written"));
  EXPECT_THAT(told()[2], HasSubstr("set back by 40 days; it says 2026-11-29T12:00 now"));
}

TEST_F(OpenForDays, OneStartUnderAWrongClockEmptiesNothing) {
  {
    auto lease = pool_.lease();
    ASSERT_THAT((*lease)->remove(Kind::bake, "b0", 0, first_noon), Holds());
  }
  wall_ += 40 * time::seconds_a_day;
  open();
  close();
  EXPECT_THAT(told(), ElementsAre(HasSubstr("nothing goes for good by it")));
  auto lease = pool_.lease();
  EXPECT_THAT((*lease)->undo(Kind::bake, "b0", first_noon), Holds());
}

TEST_F(OpenForDays, GoesOnWhenThereIsNoRoomForCopiesAndSaysSoOnce) {
  std::filesystem::remove_all(path_ + ".backups");
  std::FILE* in_the_way = std::fopen((path_ + ".backups").c_str(), "w");
  std::fclose(in_the_way);
  open();
  pass(60);
  pass(60);
  close();
  EXPECT_THAT(told(), ElementsAre(HasSubstr("no copy was made")));
}

}  // namespace

}  // namespace barm::server

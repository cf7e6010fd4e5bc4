// The locks of a process that has the daybook open, as the next program sees them. By POSIX they
// all end when the process closes any descriptor of the file: the next program then believes itself
// alone and removes the log under it, with all that was acknowledged and stood in it.
#include <fcntl.h>
#include <gmock/gmock.h>
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <filesystem>
#include <functional>
#include <thread>

#include "../support/matchers.h"
#include "daybooks.h"
#include "programs.h"
#include "storage/archive.h"
#include "storage/copies.h"
#include "storage/pool.h"

namespace barm::storage::test {

namespace {

using barm::test::Holds;
using testing::IsEmpty;
using testing::SizeIs;

// Asks in a child: a process never meets its own locks.
bool is_locked_by_us(const std::string& file, off_t from, off_t length) {
  const pid_t asker = fork();
  if (asker == 0) {
    const int opened = ::open(file.c_str(), O_RDWR | O_CLOEXEC);
    struct flock lock{};
    lock.l_type = F_WRLCK;
    lock.l_whence = SEEK_SET;
    lock.l_start = from;
    lock.l_len = length;
    const bool asked = opened >= 0 && fcntl(opened, F_GETLK, &lock) == 0;
    _exit(asked && lock.l_type != F_UNLCK && lock.l_pid == getppid() ? 0 : 1);
  }
  int status = 0;
  waitpid(asker, &status, 0);
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

// https://www.sqlite.org/src/file/src/os.h: the shared range of the file, held while it has a log;
// https://www.sqlite.org/walformat.html#wal_locks: the byte of the index that says somebody is in.
bool holds_its_locks(const std::string& file) {
  return is_locked_by_us(file, 0x40000002, 510) && is_locked_by_us(file + "-shm", 128, 1);
}

// A pool with two connections at work.
class AtWork {
 public:
  explicit AtWork(const std::string& file) : pool_(file, {.create = true}) {
    EXPECT_THAT((*pool_.lease())->save(a_bake("b"), noon), Holds());
    for (int t = 0; t < 2; ++t) threads_.emplace_back([this, t] { write(t); });
    while (saved_ < 4) std::this_thread::yield();
  }

  AtWork(const AtWork&) = delete;
  AtWork& operator=(const AtWork&) = delete;

  ~AtWork() { stop(); }

  // Readings that were acknowledged.
  int stop() {
    over_ = true;
    for (std::thread& thread : threads_) thread.join();
    threads_.clear();
    return saved_;
  }

  [[nodiscard]] bool failed() const { return failed_; }

 private:
  void write(int thread) {
    const auto lease = pool_.lease();
    for (int i = 0; lease && !over_; ++i) {
      const std::string id = std::to_string(thread) + "-" + std::to_string(i);
      const bool good = (*lease)->save(a_reading(id, "b"), noon).has_value();
      saved_ += good ? 1 : 0;
      if (!good) failed_ = true;
      // SQLite keeps no queue: who writes without a breath lets nobody else come.
      std::this_thread::sleep_for(std::chrono::milliseconds(3));
    }
  }

  Pool pool_;
  std::atomic<bool> over_ = false;
  std::atomic<bool> failed_ = false;
  std::atomic<int> saved_ = 0;
  std::vector<std::thread> threads_;
};

TEST(Locks, StayWhateverElseThisProcessDoesWithTheDaybook) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  AtWork at_work(file);
  ASSERT_TRUE(holds_its_locks(file)) << "gone when the pool opened its second";
  auto other = Daybook::open(file);
  ASSERT_THAT(other, Holds());
  const std::vector<std::pair<std::string, std::function<void()>>> doings{
      {"open and close", [&] { EXPECT_THAT(Daybook::open(file), Holds()); }},
      {"open to read", [&] { EXPECT_THAT(Daybook::open(file, {.read_only = true}), Holds()); }},
      {"check", [&] { EXPECT_THAT(*other->check(), IsEmpty()); }},
      {"back up", [&] { EXPECT_THAT(other->back_up(folder / "copy.barm"), Holds()); }},
      {"daily copy", [&] { EXPECT_THAT(keep_copy_of_the_day(*other, noon), Holds()); }},
      {"purge", [&] { EXPECT_THAT(other->purge(noon), Holds()); }},
      {"export", [&] { EXPECT_THAT(export_to(*other, folder / "all.zip", noon), Holds()); }},
      {"import", [&] { EXPECT_FALSE(import_from(folder / "all.zip", file)); }},
      {"restore", [&] { EXPECT_FALSE(restore(folder / "copy.barm", file)); }},
      {"make anew", [&] { EXPECT_THAT(Daybook::open(file, {.create = true}), Holds()); }},
  };
  for (const auto& [what, doing] : doings) {
    doing();
    EXPECT_TRUE(holds_its_locks(file)) << "gone after: " << what;
  }
  EXPECT_FALSE(at_work.failed());
}

TEST(Locks, KeepTheLogWhenAnotherProgramComesAndGoes) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  AtWork at_work(file);
  for (int i = 0; i < 10; ++i) {
    EXPECT_THAT(Daybook::open(file), Holds());
    Program writer({BARM_WORKER, "write", file, "other" + std::to_string(i), "5"});
    EXPECT_THAT(writer.lines(), SizeIs(5));
    EXPECT_EQ(writer.wait_for_end(), 0);
  }
  for (const auto& held : std::filesystem::directory_iterator("/proc/self/fd")) {
    std::error_code gone;
    const std::string name = std::filesystem::read_symlink(held.path(), gone).string();
    EXPECT_FALSE(name.starts_with(file) && name.ends_with(" (deleted)")) << name;
  }
  const int saved = at_work.stop();
  EXPECT_FALSE(at_work.failed());
  auto daybook = Daybook::open(file);
  ASSERT_THAT(daybook, Holds());
  EXPECT_EQ(*daybook->count(Kind::reading), saved + 50);
  EXPECT_THAT(*daybook->check(), IsEmpty());
}

}  // namespace

}  // namespace barm::storage::test

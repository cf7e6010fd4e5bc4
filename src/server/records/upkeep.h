#pragma once
// What a daybook needs while it is open: a copy each day, the trash emptied, the clock watched.
#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <thread>

#include "service/now.h"
#include "storage/pool.h"

namespace barm::server {

/// The clocks of the machine; a test brings its own.
struct Clocks {
  std::function<service::Now()> wall;
  std::function<std::int64_t()> running_s;  ///< goes on evenly, whatever the other is set to
  std::chrono::milliseconds look_every;

  [[nodiscard]] static Clocks of_the_machine();
};

/// A thread that looks after a daybook for as long as the object lives. What the baker has to know
/// goes to `tell`, once.
class Upkeep {
 public:
  Upkeep(storage::Pool& pool, std::function<void(const std::string&)> tell, Clocks clocks);
  Upkeep(const Upkeep&) = delete;
  Upkeep& operator=(const Upkeep&) = delete;
  ~Upkeep();

 private:
  void run();
  void round();
  void look_after(storage::Daybook& daybook, const service::Now& now);

  /// So that stopping need not wait for a long copy; false when it is all over.
  bool works_with(storage::Daybook* daybook);

  class Released {
   public:
    explicit Released(Upkeep& upkeep) : upkeep_(upkeep) {}

    Released(const Released&) = delete;
    Released& operator=(const Released&) = delete;

    ~Released() { upkeep_.works_with(nullptr); }

   private:
    Upkeep& upkeep_;
  };

  void watch_the_clock(const service::Now& now);

  using Words = std::optional<std::string>;

  /// Once, until there are no such words any more.
  void tell_while(const std::string& about, const Words& words);

  storage::Pool& pool_;
  std::function<void(const std::string&)> tell_;
  Clocks clocks_;
  std::int64_t wall_s_ = 0, running_s_ = 0;
  std::string day_of_purge_;
  std::set<std::string> told_;
  std::mutex mutex_;  // of the next three
  std::condition_variable woken_;
  bool stopped_ = false;
  storage::Daybook* in_work_ = nullptr;
  std::thread thread_;  // last: it uses all of the others
};

}  // namespace barm::server

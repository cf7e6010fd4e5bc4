#include "server/records/upkeep.h"

#include <fmt/format.h>

#include <cstdlib>
#include <ctime>
#include <exception>

#include "service/clock.h"
#include "storage/copies.h"

namespace barm::server {

namespace {

// What time servers mend in passing is no jump.
constexpr std::int64_t jump_s = 120;

}  // namespace

Clocks Clocks::of_the_machine() {
  return {service::machine_now,
          [] {
            timespec at{};
            clock_gettime(CLOCK_BOOTTIME, &at);  // goes on while the machine sleeps
            return static_cast<std::int64_t>(at.tv_sec);
          },
          std::chrono::minutes(1)};
}

Upkeep::Upkeep(storage::Pool& pool, std::function<void(const std::string&)> tell, Clocks clocks)
    : pool_(pool),
      tell_(std::move(tell)),
      clocks_(std::move(clocks)),
      wall_s_(clocks_.wall().at.seconds),
      running_s_(clocks_.running_s()),
      thread_([this] { run(); }) {}

Upkeep::~Upkeep() {
  {
    const std::scoped_lock lock(mutex_);
    stopped_ = true;
    if (in_work_ != nullptr) in_work_->interrupt();  // the next start makes the copy
  }
  woken_.notify_all();
  thread_.join();
}

void Upkeep::run() {
  std::unique_lock lock(mutex_);
  while (!stopped_) {
    lock.unlock();
    try {
      round();
    } catch (const std::exception& trouble) {
      // Served on all the same; the next round tries again.
      if (works_with(nullptr)) tell_while("round", trouble.what());
    }
    lock.lock();
    woken_.wait_for(lock, clocks_.look_every, [this] { return stopped_; });
  }
}

void Upkeep::round() {
  const service::Now now = clocks_.wall();
  watch_the_clock(now);
  auto daybook = pool_.lease();
  tell_while("daybook", daybook ? Words() : daybook.error().text());
  if (!daybook || !works_with(daybook->get())) return;
  const Released released(*this);
  look_after(**daybook, now);
  tell_while("round", std::nullopt);
}

bool Upkeep::works_with(storage::Daybook* daybook) {
  const std::scoped_lock lock(mutex_);
  in_work_ = daybook;
  return !stopped_;
}

void Upkeep::look_after(storage::Daybook& daybook, const service::Now& now) {
  const auto doubt = service::clock_doubt(daybook, now);
  tell_while("clock", doubt ? *doubt : std::nullopt);
  const auto copied = storage::keep_copy_of_the_day(daybook, now.at);
  tell_while("copy", copied ? Words() : "no copy was made: " + copied.error().text());
  const std::string day = now.at.text().substr(0, 10);
  if (!copied || day == day_of_purge_) return;  // nothing goes that no copy holds
  const auto purged = daybook.purge(now.at);
  tell_while("trash", purged ? Words() : "the trash was not emptied: " + purged.error().text());
  if (purged) day_of_purge_ = day;
}

void Upkeep::watch_the_clock(const service::Now& now) {
  const std::int64_t wall = now.at.seconds;
  const std::int64_t running = clocks_.running_s();
  const std::int64_t jump = (wall - wall_s_) - (running - running_s_);
  wall_s_ = wall;
  running_s_ = running;
  if (std::abs(jump) < jump_s) return;
  tell_(fmt::format("the clock of this machine was set {} by {}; it says {} now",
                    jump > 0 ? "forward" : "back",
                    service::rough_length(jump),
                    now.zone.local(now.at).text()));
}

void Upkeep::tell_while(const std::string& about, const Words& words) {
  if (!words) {
    told_.erase(about);
  } else if (told_.insert(about).second) {
    tell_(*words);
  }
}

}  // namespace barm::server

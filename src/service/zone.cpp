#include "service/zone.h"

#include <ctime>

namespace barm::service {

Zone Zone::fixed(int seconds_east) {
  Zone zone;
  zone.fixed_ = seconds_east;
  return zone;
}

int Zone::seconds_east(storage::Moment moment) const {
  if (fixed_) return *fixed_;
  const std::time_t seconds = moment.seconds;
  std::tm wall{};
  ::localtime_r(&seconds, &wall);
  return static_cast<int>(wall.tm_gmtoff);
}

std::string Zone::local(storage::Moment moment) const {
  return (moment + seconds_east(moment)).text().substr(0, 16);
}

std::optional<storage::Moment> Zone::moment(const std::string& local) const {
  const auto as_utc = storage::parse_moment(local + "Z");
  if (!as_utc) return std::nullopt;
  // Both the distance before a clock change and the one after it are tried; the earlier moment that
  // shows this time is meant, and in a gap the one by the distance before.
  const int before = seconds_east(*as_utc - storage::a_day);
  const int after = seconds_east(*as_utc + storage::a_day);
  const storage::Moment first = *as_utc - before;
  const storage::Moment second = *as_utc - after;
  if (seconds_east(first) == before) return first;
  return seconds_east(second) == after ? second : first;
}

Now machine_now() { return {{std::time(nullptr)}, Zone()}; }

}  // namespace barm::service

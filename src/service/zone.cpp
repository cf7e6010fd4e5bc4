#include "service/zone.h"

#include <ctime>

#include "service/words.h"

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

storage::Moment Zone::noon(storage::Moment moment, int days_later) const {
  const auto noon_of = [this](storage::Moment of) {
    return this->moment(local(of).substr(0, 10) + "T12:00").value_or(of);
  };
  return noon_of(noon_of(moment) + days_later * storage::a_day);
}

std::string said(storage::Moment moment, const Zone& zone) {
  constexpr std::int64_t quarter = 900;
  moment.seconds = (moment.seconds + quarter / 2) / quarter * quarter;
  return Clock(zone.local(moment)).moment(Time{});
}

Now machine_now() { return {{std::time(nullptr)}, Zone()}; }

}  // namespace barm::service

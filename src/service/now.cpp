#include "service/now.h"

#include <ctime>

namespace barm::service {

Now machine_now() { return {{std::time(nullptr)}, time::Zone()}; }

std::string said(time::Instant at, const time::Zone& zone) {
  return time::WallClock(time::to_nearest(time::seconds_a_quarter, at), zone).moment(Time{});
}

std::optional<time::Instant> moment_of(const std::string& local, const time::Zone& zone) {
  const auto read = time::parse_local(local);
  if (!read || !read->date) return std::nullopt;
  return zone.instant(*read);
}

time::WallClock clock_from(const time::LocalTime& mixed) {
  const time::Zone zone;
  if (mixed.date) return {zone.instant(mixed), zone};
  return time::WallClock::mixed(mixed, zone).value_or(time::WallClock());
}

Result<time::WallClock> mixed_on(const formula::Bake& bake, const time::Zone& zone) {
  return bake.mixed_at ? time::WallClock::mixed(*bake.mixed_at, zone) : time::WallClock();
}

Result<time::WallClock> clock_in(const std::string& zone, const formula::Bake& bake) {
  if (zone.empty() && bake.clock) return *bake.clock;
  const auto named = zone.empty() ? Result<time::Zone>(time::Zone()) : time::Zone::named(zone);
  if (!named) return failure(named.error().code, "--zone", named.error().message);
  return mixed_on(bake, *named);
}

time::WallClock clock_of(const formula::Bake& bake) {
  if (bake.clock) return *bake.clock;
  return bake.mixed_at ? clock_from(*bake.mixed_at) : time::WallClock();
}

}  // namespace barm::service

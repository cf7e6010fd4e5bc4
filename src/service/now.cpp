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

time::WallClock clock_from(const std::string& mixed_at) {
  const time::Zone zone;
  if (const auto mixed = moment_of(mixed_at, zone)) return {*mixed, zone};
  return time::WallClock::mixed(mixed_at, zone).value_or(time::WallClock());
}

Result<time::WallClock> clock_in(const std::string& zone, const formula::Bake& bake) {
  if (zone.empty() && bake.clock) return *bake.clock;
  const auto named = zone.empty() ? Result<time::Zone>(time::Zone()) : time::Zone::named(zone);
  if (!named) return failure(named.error().code, "--zone", named.error().message);
  return time::WallClock::mixed(bake.mixed_at.value_or(""), *named);
}

time::WallClock clock_of(const formula::Bake& bake) {
  return bake.clock ? *bake.clock : clock_from(bake.mixed_at.value_or(""));
}

}  // namespace barm::service

#include "server/questions/asked_now.h"

#include "server/door/problem.h"

namespace barm::server {

std::string asked_zone(const Request& request) {
  const std::string name = request.header("barm-zone");
  return name.empty() ? request.asked("zone") : name;
}

service::Now asked_now(const Request& request) {
  service::Now now = service::machine_now();
  const std::string name = asked_zone(request);
  if (name.empty()) return now;
  auto zone = time::Zone::named(name);
  if (!zone) throw Refused{problem(Refusal::bad_request, "zone: " + zone.error().message)};
  now.zone = *std::move(zone);
  return now;
}

}  // namespace barm::server

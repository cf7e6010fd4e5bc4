#include "server/questions/asked_now.h"

#include "server/door/problem.h"

namespace barm::server {

service::Now asked_now(const Request& request) {
  service::Now now = service::machine_now();
  std::string name = request.header("barm-zone");
  if (name.empty()) name = request.asked("zone");
  if (name.empty()) return now;
  auto zone = time::Zone::named(name);
  if (!zone) throw Refused{problem(Refusal::bad_request, "zone: " + zone.error().message)};
  now.zone = *std::move(zone);
  return now;
}

}  // namespace barm::server

#include "server/door/pairing_routes.h"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>

#include "base/error.h"
#include "server/door/problem.h"
#include "server/door/qr.h"
#include "server/questions/fields.h"

namespace barm::server {

namespace {

std::string cookie(const Request& request, const std::string& value, int seconds) {
  return fmt::format("{}={}; Path=/; Max-Age={}; HttpOnly; SameSite=Strict{}",
                     cookie_name(request.secure),
                     value,
                     seconds,
                     request.secure ? "; Secure" : "");
}

Reply pair(const Request& request, Guard& guard) {
  const Json body = parse_json(request.body);
  Fields fields(body);
  const auto key = fields.needed(
      fields.text("key", "the key in the terminal"), "key", "needs the key in the terminal");
  const std::string device =
      fields.text("device", "a name to know this device by").value_or("a device");
  fields.check_all_taken();
  Pairing* pairing = guard.pairing();
  if (pairing == nullptr)
    throw Refused{
        problem(Refusal::no_route, "pairing is for --lan; this server is for its own machine")};
  const Guess guess =
      pairing->guess(key,
                     {device, request.remote, request.cookie(cookie_name(request.secure))},
                     Pairing::Clock::now());
  if (guess.full) {
    throw Refused{problem(Error{
        ErrorCode::conflict,
        "",
        fmt::format("{} devices are paired already: have one that is not used any more forget "
                    "this server, or start the server again without the file that ends in "
                    ".lan/devices and pair all again",
                    Pairing::most_devices)})};
  }
  if (guess.wait_s > 0) {
    return problem(Refusal::too_many, fmt::format("too many wrong keys: wait {} s", guess.wait_s))
        .with("Retry-After", std::to_string(guess.wait_s));
  }
  if (guess.cookie.empty()) refuse_field("/key", "is not the key shown in the terminal");
  return answered({{"schema", "barm.paired/1"}, {"device", device}}, 200)
      .with("Set-Cookie", cookie(request, guess.cookie, 400 * 86400));
}

Reply forget(const Request& request, Guard& guard, Events& events) {
  const std::string device = guard.device(request);
  if (Pairing* pairing = guard.pairing())
    pairing->forget(request.cookie(cookie_name(request.secure)));
  if (!device.empty()) events.end(device);
  Reply nothing;
  nothing.status = 204;
  return nothing.with("Set-Cookie", cookie(request, "", 0));
}

// On a plain line somebody between could hand out one of his own.
Reply authority(const Request& request, const Certificate& certificate) {
  if (!request.secure && !request.from_here())
    return problem(Refusal::not_paired,
                   "the certificate is handed out over https alone: open " +
                       ("https://" + request.header("host")) + " and pair there");
  std::ostringstream text;
  text << std::ifstream(certificate.authority).rdbuf();
  Reply reply;
  reply.type = "application/x-x509-ca-cert";
  reply.body = text.str();
  return reply;
}

/// What another device needs to be let in: shown on this machine alone, as in its terminal.
Reply pair_code(const Request& request, Guard& guard, const std::vector<std::string>& addresses) {
  if (!request.from_here() || guard.pairing() == nullptr)
    throw Refused{problem(Refusal::no_route,
                          "the key of the house is shown on the machine itself, where the server "
                          "was started with barm open --lan")};
  const auto secure = std::find_if(addresses.begin(), addresses.end(), [](const std::string& one) {
    return one.starts_with("https:");
  });
  const std::string address = secure == addresses.end() ? "" : *secure;
  const std::string key = guard.pairing()->key();
  return answered(
      {{"schema", "barm.pair-code/1"},
       {"key", key},
       {"address", address},
       {"squares",
        address.empty() ? std::vector<std::string>{} : qr_squares(address + "/#pair=" + key)}},
      200);
}

}  // namespace

void add_pairing_routes(Router& router,
                        Guard& guard,
                        Events& events,
                        const std::optional<Certificate>& certificate,
                        std::function<std::vector<std::string>()> addresses) {
  router.add(
      {.method = "GET",
       .path = "/api/pair",
       .handler = [&guard, addresses = std::move(addresses)](const Request& request, const Parts&) {
         return pair_code(request, guard, addresses());
       }});
  router.add(
      {.method = "POST",
       .path = "/api/pair",
       .handler = [&guard](const Request& request, const Parts&) { return pair(request, guard); },
       .open = true,
       .takes = {"application/json"},
       .most_bytes = 1000});
  router.add({.method = "DELETE",
              .path = "/api/pair",
              .handler = [&guard, &events](const Request& request, const Parts&) {
                return forget(request, guard, events);
              }});
  if (!certificate) return;
  router.add({.method = "GET",
              .path = "/authority.crt",
              .handler = [&certificate](const Request& request,
                                        const Parts&) { return authority(request, *certificate); },
              .kept = false});
}

}  // namespace barm::server

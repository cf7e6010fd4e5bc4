#include "server/door/front_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <string>
#include <utility>
#include <vector>

#include "base/complain.h"
#include "base/error.h"
#include "server/door/page.h"
#include "server/door/page_version.h"
#include "server/door/problem.h"

namespace barm::server {

namespace {

// "application/json; charset=utf-8" without what follows.
std::string media_type(const Request& request) {
  std::string type = request.header("content-type");
  type = type.substr(0, type.find(';'));
  while (!type.empty() && type.back() == ' ') type.pop_back();
  std::transform(type.begin(), type.end(), type.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return type;
}

bool is_api(const std::string& path) { return path == "/api" || path.starts_with("/api/"); }

std::string asked_method(const Request& request) {
  return request.method == "HEAD" ? "GET" : request.method;
}

std::string printable(const std::string& path) {
  std::string out;
  for (const char c : path.substr(0, 200)) out += c >= 0x20 && c < 0x7F ? c : '?';
  return out;
}

Reply safe(Reply reply) {
  add_safety(reply);
  reply.with(version_header, own_version());
  return reply;
}

Reply fault(const Request& request, const char* words) {
  complain(fmt::format("barm: {} {}: {}", request.method, printable(request.path), words));
  return safe(problem(Refusal::our_fault, "a fault of barm's own; the terminal has the words"));
}

bool takes(const Route& route, const Request& request) {
  return std::find(route.takes.begin(), route.takes.end(), media_type(request)) !=
         route.takes.end();
}

Reply wrong_type(const Route& route) {
  std::string wanted;
  for (const std::string& type : route.takes) wanted += (wanted.empty() ? "" : " or ") + type;
  return problem(Refusal::wrong_type, "the body must come as " + wanted);
}

// The page shows its last answers while the server is away. Everything else is no-store.
bool may_be_kept(const Route& route, const Reply& reply) {
  return route.method == "GET" && route.kept && reply.status == 200 && !reply.stream &&
         !reply.sheet && !reply.has("Cache-Control");
}

Reply wrong_method(const std::vector<std::string>& methods) {
  std::string allowed;
  for (const std::string& method : methods) allowed += (allowed.empty() ? "" : ", ") + method;
  return problem(Refusal::wrong_method, "this route is asked by " + allowed).with("Allow", allowed);
}

}  // namespace

FrontDesk::Admission FrontDesk::admit(const Request& head) {
  const auto found = router_.find(asked_method(head), head.path);
  const bool open = found.route == nullptr ? !is_api(head.path) : found.route->open;
  Admission out;
  out.known = guard_.is_paired(head);
  if (auto refusal = guard_.refuses(head, open)) {
    out.refusal = safe(std::move(*refusal));
  } else if (found.route != nullptr && !found.route->takes.empty() && !takes(*found.route, head)) {
    out.refusal = safe(wrong_type(*found.route));
  } else if (found.route != nullptr) {
    out.most_bytes = found.route->takes.empty() ? 1000 : found.route->most_bytes;
    out.heavy = found.route->heavy;
  }
  return out;
}

Reply FrontDesk::answer(const Request& request) {
  try {
    return safe(dispatch(request));
  } catch (const Refused& refused) {
    return safe(refused.reply);
  } catch (const std::exception& error) {
    return fault(request, error.what());
  } catch (...) {
    return fault(request, "an error of no known kind");
  }
}

Reply FrontDesk::dispatch(const Request& request) const {
  if (auto stale = refuse_stale_page(request)) return std::move(*stale);
  const auto found = router_.find(asked_method(request), request.path);
  if (found.route != nullptr) {
    // It waited long: is it still wanted?
    if (found.route->heavy && request.gone && request.gone())
      return problem(Error{ErrorCode::cancelled, "", "stopped before its turn came"});
    Reply reply = found.route->handler(request, found.parts);
    if (may_be_kept(*found.route, reply)) reply.with("Cache-Control", "private, no-cache");
    return reply;
  }
  if (!found.methods.empty()) return wrong_method(found.methods);
  if (is_api(request.path))
    return problem(Refusal::no_route, "there is no such route; docs/api.md lists them");
  if (asked_method(request) != "GET") return wrong_method({"GET"});
  return page_file(request);
}

}  // namespace barm::server

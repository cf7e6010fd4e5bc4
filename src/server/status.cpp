#include "server/status.h"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <ctime>
#include <nlohmann/json.hpp>

#include "server/door/page.h"
#include "server/door/page_version.h"
#include "server/questions/fields.h"

namespace barm::server {

using nlohmann::json;

namespace {

std::string local_now() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  ::localtime_r(&now, &local);
  std::array<char, 32> text{};
  std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M", &local);
  return text.data();
}

// In UTC, to the thousandth of a second: a page holds its own clock against it.
std::string clock_now() {
  const auto now = std::chrono::system_clock::now().time_since_epoch();
  const auto thousandths =
      std::chrono::duration_cast<std::chrono::milliseconds>(now).count() % 1000;
  const std::time_t seconds = std::chrono::duration_cast<std::chrono::seconds>(now).count();
  std::tm utc{};
  ::gmtime_r(&seconds, &utc);
  std::array<char, 32> text{};
  std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%S", &utc);
  return fmt::format("{}.{:03}Z", text.data(), thousandths);
}

json certificates(const Status& status) {
  if (status.authority_fingerprint.empty()) return nullptr;
  return {{"server_sha256", status.server_fingerprint},
          {"authority_sha256", status.authority_fingerprint},
          {"authority", status.secure_address + "/authority.crt"}};
}

// What a browser grants to secure pages only: named, with the reason and the way out.
json missing(const Status& status) {
  json out = json::array();
  if (status.secure) return out;
  const std::string because = "browsers allow it only over https, and this page came over http";
  const std::string how =
      status.secure_address.empty()
          ? "open the page on the machine itself, or start the server with --lan"
          : "open " + status.secure_address +
                "; at the first visit compare the certificate's fingerprint with the terminal";
  const auto add = [&](const std::string& what) {
    out.push_back({{"what", what}, {"because", because}, {"how", how}});
  };
  add("the page without the server: it cannot be kept for when the line is down");
  add("the screen that stays on while a dough is watched");
  add("notifications");
  return out;
}

}  // namespace

Reply status_reply(const Status& status) {
  const json out = {{"schema", "barm.status/1"},
                    {"program", "barm"},
                    {"version", own_version()},
                    {"lan", status.lan},
                    {"secure", status.secure},
                    {"paired", status.paired},
                    {"daybook", status.daybook},
                    {"epoch", status.epoch},
                    {"saving", status.saving},
                    {"page", page_is_there()},
                    {"now", local_now()},
                    {"clock", clock_now()},
                    {"certificates", certificates(status)},
                    {"missing", missing(status)}};
  Reply reply;
  reply.body = written(out);
  return reply;
}

}  // namespace barm::server

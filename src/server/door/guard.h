#pragma once
// Who is let in: the address in the browser is ours, the page that asks is ours, and from elsewhere
// only who is paired.
#include <optional>
#include <string>
#include <vector>

#include "server/door/pairing.h"
#include "server/wire/exchange.h"

namespace barm::server {

class Guard {
 public:
  /// `names` are the host names by which we may be reached, beside the address itself. Without a
  /// pairing only the machine itself is let in.
  Guard(std::vector<std::string> names, std::optional<Pairing> pairing);

  /// Known once the port is.
  void set_port(int port) { port_ = port; }

  /// A refusal, or nothing. `open`: the route is for those who are not paired as well.
  [[nodiscard]] std::optional<Reply> refuses(const Request& request, bool open) const;

  [[nodiscard]] bool is_paired(const Request& request) const;

  /// Which paired device asks, "" for none and for the machine itself.
  [[nodiscard]] std::string device(const Request& request) const;

  /// For the routes of pairing; nullptr on the machine only.
  [[nodiscard]] Pairing* pairing() { return pairing_ ? &*pairing_ : nullptr; }

  [[nodiscard]] const Pairing* pairing() const { return pairing_ ? &*pairing_ : nullptr; }

 private:
  [[nodiscard]] bool knows_host(const Request& request) const;
  [[nodiscard]] bool is_own_origin(const Request& request) const;

  std::vector<std::string> names_;
  std::optional<Pairing> pairing_;
  int port_ = 0;
};

/// The name of the cookie over this kind of line: a browser keeps the two apart.
[[nodiscard]] std::string cookie_name(bool secure);

/// The headers that every reply carries.
void add_safety(Reply& reply);

}  // namespace barm::server

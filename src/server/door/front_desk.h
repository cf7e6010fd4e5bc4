#pragma once
// What is done with any request before and after its handler: admitted or refused, sent to its
// route, and its reply given what every reply carries.
#include "server/door/guard.h"
#include "server/door/router.h"
#include "server/wire/exchange.h"
#include "server/wire/listener.h"

namespace barm::server {

/// Both outlive it. May be asked from several threads once the router is filled.
class FrontDesk final : public Desk {
 public:
  FrontDesk(const Router& router, const Guard& guard) : router_(router), guard_(guard) {}

  [[nodiscard]] Admission admit(const Request& head) override;

  /// Never throws: a fault of ours is a reply too, and its words go to the terminal.
  [[nodiscard]] Reply answer(const Request& request) override;

 private:
  [[nodiscard]] Reply dispatch(const Request& request) const;

  const Router& router_;
  const Guard& guard_;
};

}  // namespace barm::server

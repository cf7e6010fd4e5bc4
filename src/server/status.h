#pragma once
#include <cstdint>
#include <string>

#include "server/wire/exchange.h"

namespace barm::server {

/// What `GET /api/status` says.
struct Status {
  bool lan = false;
  bool secure = false;  ///< a secure context for the browser
  bool paired = false;
  bool daybook = false;
  std::int64_t epoch = 0;      ///< storage::Daybook::epoch; 0 without a daybook
  std::string saving;          ///< storage::name(storage::Saving)
  std::string secure_address;  ///< where TLS is to be had; empty when nowhere
  std::string server_fingerprint, authority_fingerprint;  ///< of the certificates; for the paired
};

[[nodiscard]] Reply status_reply(const Status& status);

}  // namespace barm::server

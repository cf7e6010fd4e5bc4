#pragma once
// The server of `barm open`: the page, and under /api/ what it asks. docs/api.md.
//
//     auto server = Server::open(options);
//     (*server)->run();                    // until stop()
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "server/door/router.h"
#include "server/wire/listener.h"

namespace barm::server {

struct ServerOptions {
  std::string daybook = {};  ///< its file; empty: none
  int port = 0;              ///< 0: any that is free
  bool lan = false;          ///< other devices too, after pairing
  std::string private_folder =
      {};            ///< with lan: for the certificate and the list of paired devices
  int places = 512;  ///< connections held at once
  Patience patience = {};
};

/// One server. run() in one thread, stop() from any.
class Server {
 public:
  /// Errors: bad_input (a port that is taken, a folder that cannot be written), as Daybook::open.
  [[nodiscard]] static Result<std::unique_ptr<Server>> open(const ServerOptions& options);

  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;
  virtual ~Server() = default;

  [[nodiscard]] virtual int port() const = 0;

  /// Where a browser finds it: on this machine first, then, with lan, by TLS and plain.
  [[nodiscard]] virtual std::vector<std::string> addresses() const = 0;

  /// With lan: the key to be typed or scanned, and the certificate to compare.
  [[nodiscard]] virtual std::string key() const = 0;
  [[nodiscard]] virtual std::optional<Certificate> certificate() const = 0;

  /// Everything that may be asked: for the test that holds it against the contract.
  [[nodiscard]] virtual const Router& router() const = 0;

  /// Answers one request without the wire.
  [[nodiscard]] virtual Reply answer(const Request& request) = 0;

  virtual void run() = 0;
  virtual void stop() = 0;

 protected:
  Server() = default;
};

}  // namespace barm::server

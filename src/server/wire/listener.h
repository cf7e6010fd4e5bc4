#pragma once
// The wire: connections, HTTP and TLS. Hands requests to a Desk and sends what it replies.
#include <chrono>
#include <memory>
#include <optional>
#include <string>

#include "base/result.h"
#include "server/wire/certificate.h"
#include "server/wire/exchange.h"

namespace barm::server {

/// Who answers. Called from many threads at once.
class Desk {
 public:
  virtual ~Desk() = default;

  /// What is said before the body is read.
  struct Admission {
    std::optional<Reply> refusal;
    std::size_t most_bytes = 0;  ///< the body may have
    bool known = false;  ///< paired, or the machine itself: keeps its place before strangers
    bool heavy = false;  ///< takes long to answer: waits for its turn
  };

  [[nodiscard]] virtual Admission admit(const Request& head) = 0;
  [[nodiscard]] virtual Reply answer(const Request& request) = 0;
};

/// How long a client may take. A client that is slower is hung up on.
struct Patience {
  using Span = std::chrono::milliseconds;

  Span handshake{5000};
  Span head{10000};   ///< from the first byte of a request to the end of its head
  Span body{20000};   ///< for the body, and a second more for each 100 kB
  Span write{10000};  ///< for a reply, and a second more for each 20 kB
  Span idle{5000};    ///< between requests
  Span ending{1500};  ///< for what is under way when the server is to end
};

struct ListenerOptions {
  std::string address = "127.0.0.1";
  int port = 0;                            ///< 0: any that is free
  std::optional<Certificate> certificate;  ///< TLS as well, on the same port
  int places = 512;                        ///< connections held at once
  Patience patience;
};

/// Listens and serves until it is stopped.
class Listener {
 public:
  /// Errors: bad_input when the port is taken or not allowed.
  [[nodiscard]] static Result<std::unique_ptr<Listener>> open(const ListenerOptions& options,
                                                              Desk& desk);

  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;
  virtual ~Listener() = default;

  [[nodiscard]] virtual int port() const = 0;

  /// Serves until stop(); returns when every connection is closed.
  virtual void run() = 0;

  /// From any thread, also before run(). Requests under way are answered, heavy ones told to stop.
  virtual void stop() = 0;

 protected:
  Listener() = default;
};

}  // namespace barm::server

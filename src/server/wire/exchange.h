#pragma once
// A request and what is replied to it, without any wire between: handlers are functions from one to
// the other, and tests call them without a socket.
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace barm::server {

/// What a client asks. Header names are in lower case; of a header that comes twice the last
/// counts.
struct Request {
  std::string method;
  std::string path;  ///< decoded, without the query
  std::map<std::string, std::string> query;
  std::map<std::string, std::string> headers;
  std::string body;
  std::string remote;          ///< the client's address, such as 127.0.0.1
  std::string local;           ///< the address by which it reached us
  bool secure = false;         ///< over TLS
  bool repeated_host = false;  ///< more than one Host header
  std::function<bool()> gone;  ///< whether nobody waits for the answer any more; may be empty

  /// Empty when there is none.
  [[nodiscard]] std::string header(const std::string& name) const;

  /// Of the query; empty when there is none.
  [[nodiscard]] std::string asked(const std::string& name) const;

  /// Of the Cookie header; empty when there is none.
  [[nodiscard]] std::string cookie(std::string_view name) const;

  [[nodiscard]] bool takes_gzip() const;

  /// From the machine itself.
  [[nodiscard]] bool from_here() const;
};

/// A body that goes on as things happen. May be asked from any thread, and never waits.
class Stream {
 public:
  Stream() = default;
  Stream(const Stream&) = delete;
  Stream& operator=(const Stream&) = delete;
  virtual ~Stream() = default;

  /// Puts what has happened since into `out`, or else a sign of life; false at the end.
  [[nodiscard]] virtual bool next(std::string& out) = 0;

  /// `tell` is called, from whatever thread, when something has happened or the end has come.
  virtual void when_there_is_more(std::function<void()> tell) = 0;
};

/// What comes back. With a stream the body is what it hands out piece by piece.
struct Reply {
  int status = 200;
  std::string type = "application/json";
  std::string body;
  std::vector<std::pair<std::string, std::string>> headers;
  std::shared_ptr<Stream> stream;
  bool close = false;  ///< hang up afterwards
  bool sheet = false;  ///< to print: brings its own style, runs nothing

  [[nodiscard]] bool has(std::string_view header) const;

  Reply& with(std::string name, std::string value) {
    headers.emplace_back(std::move(name), std::move(value));
    return *this;
  }
};

}  // namespace barm::server

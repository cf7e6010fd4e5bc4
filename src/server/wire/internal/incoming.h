#pragma once
// A request as its bytes come in. Reads no line and waits for nothing.
#include <cstddef>
#include <memory>
#include <optional>
#include <string>

#include "server/wire/exchange.h"

namespace barm::server::internal {

/// One request, from its first byte to its last.
class Incoming {
 public:
  enum class State {
    more,   ///< bytes are wanted
    head,   ///< the head is there; told once, then the body is wanted
    whole,  ///< all of it is there
    wrong,  ///< this is no request that can be answered: see refusal()
  };

  Incoming();
  Incoming(const Incoming&) = delete;
  Incoming& operator=(const Incoming&) = delete;
  ~Incoming();

  /// Takes what belongs to the request off the front of `bytes`.
  [[nodiscard]] State take(std::string& bytes);

  /// The most bytes that the body may have; to be said when the head is there.
  void allow(std::size_t most_bytes);

  /// Without the body until the state is whole.
  [[nodiscard]] Request& request() { return request_; }

  [[nodiscard]] const Request& request() const { return request_; }

  /// As the head announces it; empty when it comes in chunks.
  [[nodiscard]] std::optional<std::size_t> length() const;

  [[nodiscard]] bool has_body() const;

  /// Whether the client wants to be told that its body is welcome before it sends it.
  [[nodiscard]] bool waits_for_leave() const;

  /// Whether the client may ask again on the same line, by its version and by what it says.
  [[nodiscard]] bool may_go_on() const;

  /// Whether it knows bodies in chunks (HTTP/1.1).
  [[nodiscard]] bool knows_chunks() const;

  [[nodiscard]] const Reply& refusal() const { return refusal_; }

  static constexpr std::size_t most_of_head = 65'536;
  static constexpr std::size_t most_of_line = 8192;  ///< the request's, and of each header

 private:
  struct Parser;

  State take_head(std::string& bytes);
  State take_body(std::string& bytes);
  State refuse(Reply reply);
  std::optional<Reply> read_head();
  std::optional<Reply> read_headers();
  [[nodiscard]] std::optional<Reply> unclear_body() const;

  std::unique_ptr<Parser> parser_;
  Request request_;
  Reply refusal_;
  std::size_t most_bytes_ = 0;
  bool has_head_ = false;
};

/// What a request line asks for: the path decoded, and the query's parts.
void read_target(const std::string& target, Request& request);

/// The refusal of a body that is larger than so many bytes.
[[nodiscard]] Reply too_large(std::size_t most_bytes);

}  // namespace barm::server::internal

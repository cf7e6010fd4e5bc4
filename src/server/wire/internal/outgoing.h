#pragma once
// A reply as bytes.
#include <string>

#include "server/wire/exchange.h"

namespace barm::server::internal {

/// How the bytes of a reply go out.
struct Manner {
  bool close = false;    ///< the line is closed afterwards
  bool no_body = false;  ///< HEAD: the same without its body
  bool chunks = false;   ///< a stream goes out in chunks
  bool pack = false;     ///< a long answer is packed
  int idle_seconds = 5;  ///< the line is kept so long for the next request
};

struct Bytes {
  std::string head;
  std::string body;
};

/// Status line, headers and body; of a stream the head.
[[nodiscard]] Bytes bytes_of(Reply reply, const Manner& manner);

/// A piece of a stream; an empty one is its end.
[[nodiscard]] std::string chunk_of(const std::string& piece);

/// By gzip.
[[nodiscard]] std::string packed(const std::string& text);

}  // namespace barm::server::internal

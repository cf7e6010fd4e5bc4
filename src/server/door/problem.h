#pragma once
// What goes wrong, as problem details (RFC 9457). docs/api.md has the table of codes.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/error.h"
#include "server/wire/exchange.h"

namespace barm::server {

/// What the server refuses by itself; what the use cases refuse is an Error.
enum class Refusal {
  not_paired,
  wrong_origin,
  no_route,
  restored,
  stale_page,
  wrong_method,
  wrong_type,
  wrong_host,
  too_large,
  too_long,
  too_many,
  too_busy,
  bad_request,
  our_fault,
};

/// A reply that stands in the way of any other; thrown by handlers, caught by the desk.
struct Refused {
  Reply reply;
};

/// The problem of a refusal, in the words of `detail`.
[[nodiscard]] Reply problem(Refusal refusal, const std::string& detail);

/// The problem of an error of the use cases. An error of the bake names its line and column; one of
/// a field its JSON pointer.
[[nodiscard]] Reply problem(const Error& error);

/// The same with the field the client meant, as a JSON pointer.
[[nodiscard]] Reply problem(const Error& error, const std::string& field);

/// The documents of these, not yet replies, and the reply of one.
[[nodiscard]] nlohmann::json problem_document(Refusal refusal, const std::string& detail);
[[nodiscard]] Reply problem_reply(const nlohmann::json& document);
[[nodiscard]] nlohmann::json problem_document(const Error& error, const std::string& field);

/// "Bad Request": the words of a status.
[[nodiscard]] std::string title(int status);

}  // namespace barm::server

#include "base/error.h"

#include <utility>

#include "base/require.h"

namespace barm {

namespace {

struct Row {
  ErrorCode code;
  const char* name;
  int exit;
  int http;
};

constexpr Row table[] = {
    {ErrorCode::bad_input, "bad_input", 2, 400},
    {ErrorCode::not_found, "not_found", 3, 404},
    {ErrorCode::cannot_be_met, "cannot_be_met", 4, 422},
    {ErrorCode::no_convergence, "no_convergence", 5, 500},
    {ErrorCode::cancelled, "cancelled", 130, 499},
    {ErrorCode::conflict, "conflict", 6, 409},
    {ErrorCode::unavailable, "unavailable", 7, 503},
};

const Row& row(ErrorCode code) {
  for (const Row& candidate : table) {
    if (candidate.code == code) return candidate;
  }
  throw ContractViolation("an error code without a row in the table");
}

}  // namespace

std::string Error::text() const { return where.empty() ? message : where + "  " + message; }

Error error_at(const FilePlace& place, ErrorCode code, std::string message) {
  return {code, place.text(), std::move(message), place.line, place.column};
}

int exit_status(ErrorCode code) { return row(code).exit; }

int http_status(ErrorCode code) { return row(code).http; }

std::string name(ErrorCode code) { return row(code).name; }

}  // namespace barm

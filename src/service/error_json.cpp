#include "service/error_json.h"

#include <nlohmann/json.hpp>

#include "service/internal/json_parts.h"

namespace barm::service {

nlohmann::json to_json(const Error& error) {
  nlohmann::json out = internal::document("error");
  out["code"] = name(error.code);
  out["where"] = error.where;
  out["message"] = error.message;
  return out;
}

}  // namespace barm::service

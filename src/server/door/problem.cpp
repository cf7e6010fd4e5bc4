#include "server/door/problem.h"

#include <nlohmann/json.hpp>

#include "base/require.h"

namespace barm::server {

using nlohmann::json;

namespace {

struct Row {
  Refusal refusal;
  const char* code;
  int status;
};

constexpr Row table[] = {
    {Refusal::not_paired, "not_paired", 401},
    {Refusal::wrong_origin, "wrong_origin", 403},
    {Refusal::no_route, "not_found", 404},
    {Refusal::restored, "restored", 409},
    {Refusal::stale_page, "stale_page", 409},
    {Refusal::wrong_method, "wrong_method", 405},
    {Refusal::wrong_type, "wrong_type", 415},
    {Refusal::wrong_host, "wrong_host", 421},
    {Refusal::too_large, "too_large", 413},
    {Refusal::too_long, "too_long", 414},
    {Refusal::too_many, "too_many", 429},
    {Refusal::too_busy, "too_busy", 503},
    {Refusal::bad_request, "bad_input", 400},
    {Refusal::our_fault, "our_fault", 500},
};

const Row& row(Refusal refusal) {
  for (const Row& candidate : table) {
    if (candidate.refusal == refusal) return candidate;
  }
  throw ContractViolation("a refusal without a row in the table");
}

json document(const std::string& code, int status, const std::string& detail) {
  return {{"type", "urn:barm:problem:" + code},
          {"title", title(status)},
          {"status", status},
          {"code", code},
          {"detail", detail}};
}

}  // namespace

std::string title(int status) {
  switch (status) {
    case 200:
      return "OK";
    case 201:
      return "Created";
    case 202:
      return "Accepted";
    case 204:
      return "No Content";
    case 304:
      return "Not Modified";
    case 400:
      return "Bad Request";
    case 401:
      return "Unauthorized";
    case 403:
      return "Forbidden";
    case 404:
      return "Not Found";
    case 405:
      return "Method Not Allowed";
    case 409:
      return "Conflict";
    case 413:
      return "Content Too Large";
    case 414:
      return "URI Too Long";
    case 415:
      return "Unsupported Media Type";
    case 421:
      return "Misdirected Request";
    case 422:
      return "Unprocessable Content";
    case 429:
      return "Too Many Requests";
    case 499:
      return "Stopped";
    case 503:
      return "Service Unavailable";
    case 507:
      return "Insufficient Storage";
    default:
      return "Internal Server Error";
  }
}

json problem_document(Refusal refusal, const std::string& detail) {
  const Row& of = row(refusal);
  return document(of.code, of.status, detail);
}

Reply problem_reply(const json& document) {
  Reply reply;
  reply.status = document.at("status").get<int>();
  reply.type = "application/problem+json";
  reply.body = document.dump(-1, ' ', false, json::error_handler_t::replace);
  return reply;
}

Reply problem(Refusal refusal, const std::string& detail) {
  return problem_reply(problem_document(refusal, detail));
}

json problem_document(const Error& error, const std::string& field) {
  json out = document(name(error.code), http_status(error.code), error.message);
  if (!error.where.empty()) out["where"] = error.where;
  if (error.line > 0) {
    out["line"] = error.line;
    out["column"] = error.column;
  }
  if (!field.empty()) out["field"] = field;
  return out;
}

Reply problem(const Error& error, const std::string& field) {
  return problem_reply(problem_document(error, field));
}

Reply problem(const Error& error) { return problem(error, ""); }

}  // namespace barm::server

#include "server/wire/internal/incoming.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <boost/asio/buffer.hpp>
#include <boost/beast/http/error.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/string_body.hpp>
#include <cstdint>
#include <limits>
#include <string_view>
#include <utility>

#include "server/door/problem.h"

namespace barm::server::internal {

namespace http = boost::beast::http;

namespace {

constexpr std::array<std::string_view, 7> methods{
    "GET", "HEAD", "OPTIONS", "POST", "PUT", "PATCH", "DELETE"};

template <class Text>
std::string in_small_letters(const Text& text) {
  std::string out(text.data(), text.size());
  std::transform(out.begin(), out.end(), out.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return out;
}

bool has_control_characters(const std::string& path) {
  return std::any_of(path.begin(), path.end(), [](char c) {
    return static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
  });
}

bool is_number(const std::string& text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string::npos;
}

bool takes_no_body(const std::string& method) {
  return method == "GET" || method == "HEAD" || method == "OPTIONS";
}

Reply no_http() {
  return problem(Refusal::bad_request, "this is not HTTP as it is understood here");
}

}  // namespace

struct Incoming::Parser {
  http::request_parser<http::string_body> of;

  /// What it has taken off the front is gone from `bytes`.
  boost::system::error_code put(std::string& bytes) {
    boost::system::error_code error;
    const std::size_t taken = of.put(boost::asio::buffer(std::as_const(bytes)), error);
    bytes.erase(0, taken);
    if (error == http::error::need_more) error = {};
    return error;
  }
};

Incoming::Incoming() : parser_(std::make_unique<Parser>()) {
  parser_->of.header_limit(static_cast<std::uint32_t>(most_of_head));
  // How much may come is known only when the head is read.
  parser_->of.body_limit(std::numeric_limits<std::uint64_t>::max());
}

Incoming::~Incoming() = default;

Incoming::State Incoming::take(std::string& bytes) {
  return has_head_ ? take_body(bytes) : take_head(bytes);
}

Incoming::State Incoming::refuse(Reply reply) {
  refusal_ = std::move(reply);
  return State::wrong;
}

Incoming::State Incoming::take_head(std::string& bytes) {
  if (bytes.empty()) return State::more;
  if (parser_->put(bytes)) return refuse(no_http());
  if (!parser_->of.is_header_done()) return State::more;
  has_head_ = true;
  if (auto refusal = read_head()) return refuse(std::move(*refusal));
  return State::head;
}

// Nothing, or why it cannot be answered.
std::optional<Reply> Incoming::read_head() {
  const std::string target(parser_->of.get().target());
  request_.method = std::string(parser_->of.get().method_string());
  if (auto refusal = read_headers()) return refusal;
  if (target.size() > most_of_line)
    return problem(Refusal::too_long,
                   fmt::format("the address is longer than {} bytes", most_of_line));
  const bool known = std::find(methods.begin(), methods.end(), request_.method) != methods.end();
  if (!known || !target.starts_with('/')) return no_http();
  read_target(target, request_);
  if (auto refusal = unclear_body()) return refusal;
  if (has_control_characters(request_.path))
    return problem(Refusal::no_route, "there is no such path");
  return std::nullopt;
}

std::optional<Reply> Incoming::read_headers() {
  for (const auto& field : parser_->of.get()) {
    const std::string name = in_small_letters(field.name_string());
    const bool again = request_.headers.contains(name);
    if (name == "host" && again) request_.repeated_host = true;
    // Two ways to say where the body ends may be read in two ways.
    if (name == "content-length" && again)
      return problem(Refusal::bad_request, "the request says in two ways how long its body is");
    if (field.value().size() > most_of_line) return no_http();
    request_.headers[name] = std::string(field.value());
  }
  return std::nullopt;
}

std::optional<Reply> Incoming::unclear_body() const {
  const auto refusal = [](const char* why) { return problem(Refusal::bad_request, why); };
  const std::string coding = in_small_letters(request_.header("transfer-encoding"));
  if (!coding.empty() && coding != "chunked")
    return refusal("the body's transfer encoding is not known here");
  if (request_.headers.contains("content-length") && !is_number(request_.header("content-length")))
    return refusal("the body's length is no number");
  // A body where none belongs would be read as the next request.
  if (takes_no_body(request_.method) && has_body()) return refusal("this request takes no body");
  const std::string packing = in_small_letters(request_.header("content-encoding"));
  if (has_body() && !packing.empty() && packing != "identity")
    return refusal("the body must come unpacked");
  return std::nullopt;
}

void Incoming::allow(std::size_t most_bytes) {
  most_bytes_ = most_bytes;
  parser_->of.body_limit(most_bytes);
  parser_->of.eager(true);
}

Incoming::State Incoming::take_body(std::string& bytes) {
  if (!parser_->of.is_done() && !bytes.empty()) {
    const auto error = parser_->put(bytes);
    if (error == http::error::body_limit) return refuse(too_large(most_bytes_));
    // What is left is the beginning of a line between two pieces, or lines after the last.
    if (error || (!parser_->of.is_done() && bytes.size() > most_of_line))
      return refuse(problem(Refusal::bad_request, "the body is not what its headers say"));
  }
  if (!parser_->of.is_done()) return State::more;
  request_.body = std::move(parser_->of.get().body());
  return State::whole;
}

std::optional<std::size_t> Incoming::length() const {
  const auto said = has_head_ ? parser_->of.content_length() : boost::none;
  return said ? std::optional<std::size_t>(*said) : std::nullopt;
}

bool Incoming::has_body() const { return parser_->of.chunked() || length().value_or(0) > 0; }

bool Incoming::waits_for_leave() const {
  return has_body() && in_small_letters(request_.header("expect")) == "100-continue";
}

bool Incoming::may_go_on() const { return has_head_ && parser_->of.keep_alive(); }

bool Incoming::knows_chunks() const { return parser_->of.get().version() >= 11; }

Reply too_large(std::size_t most_bytes) {
  return problem(Refusal::too_large,
                 fmt::format("a body of at most {} bytes is taken here", most_bytes));
}

}  // namespace barm::server::internal

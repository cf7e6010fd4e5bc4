#include "server/wire/internal/outgoing.h"

#include <fmt/format.h>
#include <zlib.h>

#include <array>
#include <ctime>
#include <string>
#include <utility>

#include "base/require.h"
#include "server/door/problem.h"

namespace barm::server::internal {

namespace {

constexpr std::size_t least_to_pack = 1400;  // bytes: less goes in one packet as it is
constexpr int gzip_format = 15 + 16;         // zlib: the largest window, and a gzip header
constexpr int memory_level = 8;

bool never_has_a_body(int status) { return status == 204 || status == 304; }

std::string http_date() {
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  ::gmtime_r(&now, &utc);
  static constexpr std::array days{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  static constexpr std::array months{
      "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  return fmt::format("{}, {:02} {} {} {:02}:{:02}:{:02} GMT",
                     days.at(static_cast<std::size_t>(utc.tm_wday)),
                     utc.tm_mday,
                     months.at(static_cast<std::size_t>(utc.tm_mon)),
                     1900 + utc.tm_year,
                     utc.tm_hour,
                     utc.tm_min,
                     utc.tm_sec);
}

void pack(Reply& reply) {
  reply.body = packed(reply.body);
  reply.with("Content-Encoding", "gzip").with("Vary", "Accept-Encoding");
}

std::string head_of(const Reply& reply, const Manner& manner) {
  std::string head =
      fmt::format("HTTP/1.1 {} {}\r\nDate: {}\r\n", reply.status, title(reply.status), http_date());
  for (const auto& [name, value] : reply.headers) head += name + ": " + value + "\r\n";
  if (!never_has_a_body(reply.status)) {
    head += "Content-Type: " + reply.type + "\r\n";
    if (reply.stream && manner.chunks) head += "Transfer-Encoding: chunked\r\n";
    if (!reply.stream) head += fmt::format("Content-Length: {}\r\n", reply.body.size());
  }
  head += manner.close ? std::string("Connection: close\r\n")
                       : fmt::format("Keep-Alive: timeout={}\r\nConnection: keep-alive\r\n",
                                     manner.idle_seconds);
  return head + "\r\n";
}

}  // namespace

std::string packed(const std::string& text) {
  z_stream gzip{};
  require(deflateInit2(&gzip,
                       Z_DEFAULT_COMPRESSION,
                       Z_DEFLATED,
                       gzip_format,
                       memory_level,
                       Z_DEFAULT_STRATEGY) == Z_OK,
          "zlib begins");
  std::string out(deflateBound(&gzip, text.size()), '\0');
  gzip.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));  // it only reads
  gzip.avail_in = static_cast<uInt>(text.size());
  gzip.next_out = reinterpret_cast<Bytef*>(out.data());
  gzip.avail_out = static_cast<uInt>(out.size());
  const int ended = deflate(&gzip, Z_FINISH);
  out.resize(gzip.total_out);
  deflateEnd(&gzip);
  require(ended == Z_STREAM_END, "zlib packs all within its own bound");
  return out;
}

Bytes bytes_of(Reply reply, const Manner& manner) {
  const bool is_long = reply.type == "application/json" && reply.body.size() > least_to_pack;
  if (manner.pack && is_long && !reply.stream) pack(reply);
  Bytes out;
  out.head = head_of(reply, manner);
  if (!manner.no_body && !never_has_a_body(reply.status)) out.body = std::move(reply.body);
  return out;
}

std::string chunk_of(const std::string& piece) {
  return fmt::format("{:x}\r\n{}\r\n", piece.size(), piece);
}

}  // namespace barm::server::internal

#include "server/door/page.h"

#include <fmt/format.h>
#include <openssl/sha.h>

#include <array>
#include <map>

#include "server/door/internal/embedded.h"
#include "server/door/problem.h"

namespace barm::server {

namespace {

struct File {
  internal::Embedded content;
  std::string type;
  std::string tag;  ///< ETag, of the content
  bool lasting = false;
};

std::string type_of(std::string_view path) {
  static constexpr std::pair<std::string_view, const char*> table[] = {
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".json", "application/json"},
      {".webmanifest", "application/manifest+json"},
      {".svg", "image/svg+xml"},
      {".png", "image/png"},
      {".ico", "image/x-icon"},
      {".woff2", "font/woff2"},
      {".mp3", "audio/mpeg"},
      {".wav", "audio/wav"},
      {".txt", "text/plain; charset=utf-8"},
  };
  for (const auto& [ending, type] : table) {
    if (path.ends_with(ending)) return type;
  }
  return "application/octet-stream";
}

std::string tag_of(std::string_view bytes) {
  std::array<unsigned char, SHA256_DIGEST_LENGTH> digest{};
  SHA256(reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(), digest.data());
  std::string tag = "\"";
  for (std::size_t i = 0; i < 12; ++i) tag += fmt::format("{:02x}", digest.at(i));
  return tag + '"';
}

// "/assets/index-B3d5f_9a.js": the builder puts a digest of the content into the name.
bool has_digest(std::string_view path) { return path.starts_with("/assets/"); }

std::map<std::string_view, File> all_files() {
  std::map<std::string_view, File> files;
  const auto page = internal::page();
  for (const internal::Embedded& one : page.empty() ? internal::no_page() : page)
    files[one.path] = {one, type_of(one.path), tag_of(one.bytes), has_digest(one.path)};
  return files;
}

const std::map<std::string_view, File>& files() {
  static const std::map<std::string_view, File> all = all_files();
  return all;
}

// A path of the page's own, not of a file: no dot in its last step.
bool is_place(std::string_view path) {
  return path.find('.', path.rfind('/') + 1) == std::string_view::npos;
}

const File* find(std::string_view path) {
  auto found = files().find(path);
  if (found == files().end() && is_place(path)) found = files().find("/index.html");
  return found == files().end() ? nullptr : &found->second;
}

}  // namespace

Reply page_file(const Request& request) {
  const File* file = find(request.path);
  if (file == nullptr) throw Refused{problem(Refusal::no_route, "there is no such file")};
  Reply reply;
  reply.with("ETag", file->tag)
      .with("Cache-Control", file->lasting ? "public, max-age=31536000, immutable" : "no-cache")
      .with("Vary", "Accept-Encoding");
  reply.type = file->type;
  if (request.header("if-none-match").find(file->tag) != std::string::npos) {
    reply.status = 304;
    return reply;
  }
  const std::string_view packed = file->content.packed;
  if (!packed.empty() && packed.size() < file->content.bytes.size() && request.takes_gzip()) {
    reply.with("Content-Encoding", "gzip");
    reply.body = packed;
  } else {
    reply.body = file->content.bytes;
  }
  return reply;
}

bool page_is_there() { return !internal::page().empty(); }

}  // namespace barm::server

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>

#include "server/wire/internal/incoming.h"

namespace barm::server::internal {

namespace {

int digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

// "%20" is a blank; a percent sign before anything but two digits is itself.
std::string percent_decoded(std::string_view text, bool plus_is_blank) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool is_code =
        text[i] == '%' && i + 2 < text.size() && digit(text[i + 1]) >= 0 && digit(text[i + 2]) >= 0;
    if (is_code) {
      out += static_cast<char>(16 * digit(text[i + 1]) + digit(text[i + 2]));
      i += 2;
    } else {
      out += plus_is_blank && text[i] == '+' ? ' ' : text[i];
    }
  }
  return out;
}

void read_query(std::string_view text, Request& request) {
  while (!text.empty()) {
    const std::string_view one = text.substr(0, text.find('&'));
    text.remove_prefix(std::min(one.size() + 1, text.size()));
    const std::size_t equals = one.find('=');
    const std::string_view value =
        equals == std::string_view::npos ? std::string_view() : one.substr(equals + 1);
    if (!one.empty())
      request.query.emplace(percent_decoded(one.substr(0, equals), true),
                            percent_decoded(value, true));
  }
}

}  // namespace

void read_target(const std::string& target, Request& request) {
  const std::string_view all = std::string_view(target).substr(0, target.find('#'));
  const std::size_t question = all.find('?');
  request.path = percent_decoded(all.substr(0, question), false);
  if (question != std::string_view::npos) read_query(all.substr(question + 1), request);
}

}  // namespace barm::server::internal

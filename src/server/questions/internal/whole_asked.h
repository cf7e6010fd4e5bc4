#pragma once
#include <fmt/format.h>

#include <charconv>
#include <cstdint>
#include <string>

#include "server/door/problem.h"
#include "server/wire/exchange.h"

namespace barm::server {

inline constexpr std::int64_t most_number =
    (std::int64_t{1} << 53U) - 1;  // a page's numbers are exact so far

/// A whole number of the query, `usual` where it is not there. Throws Refused.
inline std::int64_t whole_asked(const Request& request,
                                const std::string& name,
                                std::int64_t least,
                                std::int64_t most,
                                std::int64_t usual) {
  const std::string text = request.asked(name);
  if (text.empty()) return usual;
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || value < least || value > most) {
    throw Refused{problem(Refusal::bad_request,
                          fmt::format("{} needs a whole number from {} to {}", name, least, most))};
  }
  return value;
}

}  // namespace barm::server

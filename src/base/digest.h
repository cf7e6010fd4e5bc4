#pragma once
#include <cstdint>
#include <string>
#include <string_view>

namespace barm {

/// A short name for a text, by which two are told apart where nobody means harm: 16 hexadecimal
/// digits of FNV-1a. Source: Fowler, Noll & Vo's published constants, remembered.
/// Checked against: tests/base/digest_test.cpp.
[[nodiscard]] inline std::string digest(std::string_view text) {
  std::uint64_t hash = 14695981039346656037U;
  for (const char c : text) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 1099511628211U;
  }
  constexpr std::string_view digits = "0123456789abcdef";
  std::string out(16, '0');
  for (std::size_t i = out.size(); i-- > 0; hash >>= 4U) out[i] = digits[hash & 0xFU];
  return out;
}

}  // namespace barm

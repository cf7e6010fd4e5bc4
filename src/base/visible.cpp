#include "base/visible.h"

namespace barm {

namespace {

std::size_t length_by_lead(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead < 0xC2 || lead > 0xF4) return 0;
  return lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
}

unsigned code_point(std::string_view character) {
  const auto lead = static_cast<unsigned char>(character.front());
  if (character.size() == 1) return lead;
  unsigned point = lead & (0x7FU >> character.size());
  for (const char c : character.substr(1))
    point = (point << 6U) | (static_cast<unsigned char>(c) & 0x3FU);
  return point;
}

bool turns_the_writing(unsigned point) {
  return point == 0x061C || point == 0x200E || point == 0x200F ||
         (point >= 0x202A && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069);
}

constexpr const char* unknown = "\xEF\xBF\xBD";  // U+FFFD

// U+2400 and the 31 after it; U+2421 for DEL.
std::string picture_of(unsigned control) {
  const unsigned last = control == 0x7F ? 0x21 : control;
  return {'\xE2', '\x90', static_cast<char>(0x80U + last)};
}

std::string shown(std::string_view character) {
  const unsigned point = code_point(character);
  if (point == '\n') return "\n";
  if (point < 0x20 || point == 0x7F) return picture_of(point);
  const bool other_control = point >= 0x80 && point < 0xA0;
  const bool line_end = point == 0x2028 || point == 0x2029;
  if (other_control || line_end || turns_the_writing(point)) return unknown;
  return std::string(character);
}

}  // namespace

std::size_t character_length(std::string_view text) {
  if (text.empty()) return 0;
  const std::size_t length = length_by_lead(static_cast<unsigned char>(text.front()));
  if (length == 0 || length > text.size()) return 0;
  for (const char c : text.substr(1, length - 1)) {
    if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) return 0;
  }
  const unsigned point = code_point(text.substr(0, length));
  const bool overlong = (length == 3 && point < 0x800) || (length == 4 && point < 0x10000);
  const bool surrogate = point >= 0xD800 && point <= 0xDFFF;
  return overlong || surrogate || point > 0x10FFFF ? 0 : length;
}

std::string visible(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const std::size_t length = character_length(text);
    out += length == 0 ? unknown : shown(text.substr(0, length));
    text.remove_prefix(length == 0 ? 1 : length);
  }
  return out;
}

}  // namespace barm

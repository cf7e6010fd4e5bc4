#include "shop/label_text.h"

namespace barm::shop {

namespace {

/// In capitals, the accented letters of the label's languages too (UTF-8: é is C3 A9, É is C3 89;
/// œ is C5 93, Œ is C5 92).
std::string in_capitals(std::string text) {
  constexpr unsigned char latin = 0xC3;
  constexpr unsigned char extended = 0xC5;
  constexpr unsigned char small_oe = 0x93;
  constexpr unsigned char first_small = 0xA0;
  constexpr unsigned char last_small = 0xBE;
  constexpr int to_capital = 0x20;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto before = i == 0 ? 0 : static_cast<unsigned char>(text[i - 1]);
    const auto byte = static_cast<unsigned char>(text[i]);
    const bool accented = before == latin && byte >= first_small && byte <= last_small;
    if ((byte >= 'a' && byte <= 'z') || accented) text[i] = static_cast<char>(byte - to_capital);
    if (before == extended && byte == small_oe) text[i] = static_cast<char>(byte - 1);
  }
  return text;
}

}  // namespace

std::string plain(const LabelText& text, bool capitals) {
  std::string out;
  for (const TextPiece& piece : text)
    out += capitals && piece.strong ? in_capitals(piece.text) : piece.text;
  return out;
}

LabelText marked(std::string_view text, bool with_emphasis) {
  LabelText out;
  std::string part;
  const auto finish = [&](bool strong) {
    if (!part.empty()) out.push_back({part, strong && with_emphasis});
    part.clear();
  };
  for (const char c : text) {
    if (c == '{') {
      finish(false);
    } else if (c == '}') {
      finish(true);
    } else {
      part += c;
    }
  }
  finish(false);
  return out;
}

}  // namespace barm::shop

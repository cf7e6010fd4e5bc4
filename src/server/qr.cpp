#include "server/qr.h"

#include <qrencode.h>

#include <memory>

namespace barm::server {

std::string qr_code(const std::string& text) {
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
      QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_L), QRcode_free);
  if (code == nullptr) return "";
  constexpr int quiet = 2;
  const int width = code->width;
  const auto dark = [&](int row, int column) {
    if (row < 0 || column < 0 || row >= width || column >= width) return false;
    return (code->data[row * width + column] & 1U) != 0;
  };
  std::string out;
  for (int row = -quiet; row < width + quiet; row += 2) {
    for (int column = -quiet; column < width + quiet; ++column) {
      const bool above = dark(row, column);
      const bool below = dark(row + 1, column);
      out += above && below ? " " : above ? "▄" : below ? "▀" : "█";
    }
    out += '\n';
  }
  return out;
}

}  // namespace barm::server

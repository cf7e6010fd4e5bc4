#include "server/door/qr.h"

#include <qrencode.h>

#include <cstddef>
#include <memory>

namespace barm::server {

std::vector<std::string> qr_squares(const std::string& text) {
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
      QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_L), QRcode_free);
  if (code == nullptr) return {};
  constexpr std::size_t quiet = 2;
  const auto width = static_cast<std::size_t>(code->width);
  std::vector<std::string> rows(width + 2 * quiet, std::string(width + 2 * quiet, '0'));
  for (std::size_t row = 0; row < width; ++row) {
    for (std::size_t column = 0; column < width; ++column) {
      if ((code->data[row * width + column] & 1U) != 0) rows[row + quiet][column + quiet] = '1';
    }
  }
  return rows;
}

std::string qr_code(const std::string& text) {
  const auto rows = qr_squares(text);
  std::string out;
  for (std::size_t row = 0; row < rows.size(); row += 2) {
    for (std::size_t column = 0; column < rows[row].size(); ++column) {
      const bool above = rows[row][column] == '1';
      const bool below = row + 1 < rows.size() && rows[row + 1][column] == '1';
      out += above && below ? " " : above ? "▄" : below ? "▀" : "█";
    }
    out += '\n';
  }
  return out;
}

}  // namespace barm::server

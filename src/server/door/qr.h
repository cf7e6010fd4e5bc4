#pragma once
#include <string>
#include <vector>

namespace barm::server {

/// The text as a QR code: a row of 1 for a dark square and 0 for a light one, with a quiet edge of
/// two. Empty when the text is too long for one.
[[nodiscard]] std::vector<std::string> qr_squares(const std::string& text);

/// The same for a terminal, two rows of squares a line, the light squares drawn: right on a dark
/// terminal, turned round on a light one, which phones read as well.
[[nodiscard]] std::string qr_code(const std::string& text);

}  // namespace barm::server

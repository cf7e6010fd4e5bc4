#pragma once
#include <string>

namespace barm::server {

/// The text as a QR code for a terminal, two rows of squares a line, the light squares drawn: right
/// on a dark terminal, turned round on a light one, which phones read as well. Empty when the text
/// is too long for one.
[[nodiscard]] std::string qr_code(const std::string& text);

}  // namespace barm::server

#include "formula/feed.h"

#include <array>

#include "formula/amount.h"

namespace barm::formula {

Result<Feed> parse_feed(std::string_view text) {
  const auto wrong = failure(
      ErrorCode::bad_input, "", "is three parts by weight: write \"1:2:1\", ripe : flour : water");
  std::array<double, 3> parts{};
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::size_t colon = text.find(':');
    const bool last = i + 1 == parts.size();
    if ((colon == std::string_view::npos) != last) return wrong;
    const auto part = parse_number(text.substr(0, colon));
    const bool good = part && part->unit.empty() && part->value > 0 && part->value <= 1000;
    if (!good) return wrong;
    parts[i] = part->value;
    if (!last) text.remove_prefix(colon + 1);
  }
  return Feed{parts[0], parts[1], parts[2]};
}

}  // namespace barm::formula

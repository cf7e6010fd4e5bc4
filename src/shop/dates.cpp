#include "shop/dates.h"

#include "shop/internal/date.h"

namespace barm::shop {

std::optional<long> days_between(std::string_view from, std::string_view to) {
  const auto first = internal::day_number(from);
  const auto last = internal::day_number(to);
  if (!first || !last) return std::nullopt;
  return *last - *first;
}

}  // namespace barm::shop

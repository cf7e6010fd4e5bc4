#include "server/wire/internal/places.h"

#include <algorithm>
#include <map>

namespace barm::server::internal {

namespace {

constexpr std::size_t strangers_share = 2;  // of the places: one half
constexpr std::size_t address_share = 4;    // and of one address a quarter

/// Of all but the last, the one that `may` be turned out and is `before` every other.
template <class May, class Before>
std::optional<std::size_t> first(const std::vector<Holder>& holders, May may, Before before) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i + 1 < holders.size(); ++i) {
    if (holders[i].working || !may(holders[i])) continue;
    if (!found || before(holders[i], holders[*found])) found = i;
  }
  return found;
}

}  // namespace

Room room_for_the_last(const std::vector<Holder>& holders, std::size_t places) {
  if (holders.empty()) return {};
  const Holder& last = holders.back();
  std::map<std::string, std::size_t> strangers;
  std::size_t all_strangers = 0;
  for (const Holder& one : holders) {
    if (one.known) continue;
    ++all_strangers;
    ++strangers[one.address];
  }
  const auto longest = [](const Holder& a, const Holder& b) { return a.since < b.since; };
  const auto greediest = [&](const Holder& a, const Holder& b) {
    const std::size_t of_a = strangers[a.address];
    const std::size_t of_b = strangers[b.address];
    return of_a != of_b ? of_a > of_b : longest(a, b);
  };
  const auto stranger = [](const Holder& one) { return !one.known; };
  const auto room = [](std::optional<std::size_t> out) { return Room{out.has_value(), out}; };

  const auto share = [&](std::size_t of) { return std::max<std::size_t>(1, places / of); };
  if (!last.known && strangers[last.address] > share(address_share))
    return room(first(
        holders,
        [&](const Holder& one) { return !one.known && one.address == last.address; },
        longest));
  if (!last.known && all_strangers > share(strangers_share))
    return room(first(holders, stranger, greediest));
  if (holders.size() <= places) return {};
  if (const auto out = first(holders, stranger, greediest)) return room(out);
  return room(first(holders, [](const Holder&) { return true; }, longest));
}

}  // namespace barm::server::internal

#pragma once
// Who holds a place, and who must leave his when others come: nobody keeps the paired out.
#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace barm::server::internal {

/// One line and what is known of who is at its end.
struct Holder {
  std::string address;
  bool known = false;    ///< paired, or the machine itself
  bool working = false;  ///< an answer is on its way: nobody is turned out then
  std::chrono::steady_clock::time_point since;  ///< begun what it does now
};

/// What becomes of one more.
struct Room {
  bool there = true;                      ///< false: it has to come again
  std::optional<std::size_t> turned_out;  ///< this one's place is taken
};

/// Room for the last of the holders, who has just come. Strangers may hold half of the places, and
/// a quarter from one address; one too many takes the place of the stranger whose address holds
/// most, the longest there. Only then do the known who idle make room.
[[nodiscard]] Room room_for_the_last(const std::vector<Holder>& holders, std::size_t places);

}  // namespace barm::server::internal

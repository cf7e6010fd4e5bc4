#pragma once
// Clock times as a baker writes them, counted in true hours since mixing.
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "units/units.h"

namespace barm::estimation {

/// The clock on the wall of a bakery, from the moment of mixing on.
class WallClock {
 public:
  /// Mixing at "2026-11-28T07:00" (a blank for the T, seconds allowed) in an IANA zone such as
  /// "Europe/Berlin"; without a zone a clock that is never changed; without a time only hours since
  /// mixing can be read. Errors: bad_input, not_found for the zone.
  [[nodiscard]] static Result<WallClock> mixed(const std::string& at, const std::string& zone);

  [[nodiscard]] bool known() const { return mixed_.has_value(); }

  /// Hours since mixing of "2026-11-28T14:30" or "14:30"; a time of day is the first one not before
  /// `after`, reading past midnight only when it lies more than half a day back. Of a time that
  /// strikes twice the first that is not before `after` is taken. Errors: bad_input, with the words
  /// for what is wrong.
  [[nodiscard]] Result<Time> since_mixing(std::string_view local, Time after) const;

 private:
  std::optional<long long> mixed_;        // [s] since 1970-01-01 UTC (without a zone: local)
  std::optional<long long> mixed_local_;  // [s] since 1970-01-01 on the wall
  std::string zone_;
};

/// Whether a text looks like a clock time ("14:30", "2026-11-28 14:30") and not like a number.
[[nodiscard]] bool looks_like_clock(std::string_view text);

}  // namespace barm::estimation

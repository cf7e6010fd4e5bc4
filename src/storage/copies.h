#pragma once
// The copies a daybook keeps of itself in FILE.backups/, each called by its number and the day the
// clock showed: 0012-2026-11-28.barm. The number alone says which is newer, so that no clock can
// push a copy out.
#include <optional>
#include <string>

#include "base/result.h"
#include "storage/daybook.h"

namespace barm::storage {

/// How many copies stay: the last of all, the last one of each of the last days, and of each seven
/// in a row before them the last.
inline constexpr std::size_t last_copies_kept = 7;
inline constexpr std::size_t days_kept = 7;
inline constexpr std::size_t sevens_kept = 4;

struct Copy {
  std::string name;
  bool made = true;  ///< false: nothing has changed since that copy, and it is whole
};

/// A new copy, checked before an older one goes; or the newest of before when that holds all there
/// is. Errors: as Daybook::open; bad_input when the daybook itself is damaged, and no copy goes.
[[nodiscard]] Result<Copy> keep_copy(Daybook& daybook, time::Instant now);

/// The same where the newest copy is not of the day of `now`, or where there is none; nothing
/// otherwise, or when nothing has changed since.
[[nodiscard]] Result<std::optional<Copy>> keep_copy_of_the_day(Daybook& daybook, time::Instant now);

}  // namespace barm::storage

#pragma once
#include <optional>
#include <string>
#include <type_traits>

#include "storage/internal/columns.h"

namespace barm::storage::internal {

/// Whether a record only notes what was seen or done of another. Such a note may come late, from a
/// telephone that was away.
template <class T>
constexpr bool is_note =
    std::is_same_v<T, Feeding> || std::is_same_v<T, ReadingRecord> || std::is_same_v<T, Mark> ||
    std::is_same_v<T, Loaf> || std::is_same_v<T, Remark> || std::is_same_v<T, Photo>;

/// Takes a record out of the trash if it is there, and a loaf's bake with it.
void bring_back(Daybook::Connection& connection,
                Kind kind,
                const std::string& id,
                time::Instant now);

/// A note of what lies in the trash brings that back: whoever wrote it had not seen the deletion,
/// and would find neither again when both went for good.
template <class T>
void bring_owners_back(Daybook::Connection& connection, const T& record, time::Instant now) {
  if constexpr (is_note<T>) {
    each_field(record, [&](const char* field, const auto& value) {
      using Value = std::decay_t<decltype(value)>;
      const auto kind = kind_of(field);
      if (!kind) return;
      if constexpr (std::is_same_v<Value, std::string>) bring_back(connection, *kind, value, now);
      if constexpr (std::is_same_v<Value, std::optional<std::string>>) {
        if (value) bring_back(connection, *kind, *value, now);
      }
    });
  }
}

}  // namespace barm::storage::internal

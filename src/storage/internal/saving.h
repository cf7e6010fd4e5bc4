#pragma once
// Writing one revision of a record with all that goes with it: kept version, feed of changes, and
// the owner's name when it is missing.
#include <fmt/format.h>
#include <sqlite3.h>

#include "storage/internal/checks.h"
#include "storage/internal/columns.h"
#include "storage/internal/connection.h"

namespace barm::storage::internal {

/// "test bake".
[[nodiscard]] std::string words(Kind kind);

void keep_version(Daybook::Connection& connection, const BakeVersion& version);

/// Refuses by the first field that names a record which is not there.
template <class T>
void refuse_missing_owner(Daybook::Connection& connection, const T& record) {
  const auto look = [&](const char* field, const auto& value) {
    using Value = std::decay_t<decltype(value)>;
    const auto kind = kind_of(field);
    std::string id;
    if constexpr (std::is_same_v<Value, std::string>) id = value;
    if constexpr (std::is_same_v<Value, std::optional<std::string>>) id = value.value_or("");
    if (!kind || id.empty() || exists(connection, *kind, id)) return;
    refuse(ErrorCode::not_found, field, fmt::format("there is no {} '{}'", words(*kind), id));
  };
  each_field(record, look);
}

template <class T>
void write_new_revision(Daybook::Connection& connection, const T& record) {
  try {
    write_row(connection, record);
  } catch (const SQLite::Exception& exception) {
    if (exception.getExtendedErrorCode() == SQLITE_CONSTRAINT_FOREIGNKEY)
      refuse_missing_owner(connection, record);
    throw;
  }
  if constexpr (std::is_same_v<T, Bake>)
    keep_version(connection,
                 {record.id, record.revision, record.saved_at, record.title, record.toml});
  static_cast<void>(note_change(connection,
                                {.number = 0,
                                 .kind = Shape<T>::kind,
                                 .id = record.id,
                                 .revision = record.revision,
                                 .what = "saved",
                                 .at = record.saved_at}));
}

void write_picture(Daybook::Connection& connection,
                   const std::string& photo,
                   const std::string& picture,
                   const std::string& thumbnail);

}  // namespace barm::storage::internal

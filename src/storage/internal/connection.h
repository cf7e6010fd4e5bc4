#pragma once
// The SQLite connection behind a Daybook, and how SQLite's exceptions become our errors. Only the
// .cpp files of storage include this.
#include <SQLiteCpp/SQLiteCpp.h>

#include <cstdint>
#include <optional>
#include <string>
#include <type_traits>
#include <unordered_map>
#include <utility>

#include "base/result.h"
#include "storage/daybook.h"

namespace barm::storage {

class Daybook::Connection {
 public:
  /// Opens the file and reads nothing of it yet: internal::look_at_header() comes first.
  Connection(std::string path, const std::string& name, int flags, int busy_ms);

  /// How we wish to work with it. From here on it holds a lock until it is closed.
  void set_up();

  /// How many prepared statements are kept: a daybook's own are fewer, searches have many forms.
  static constexpr std::size_t most_statements = 200;

  /// The prepared statement, reset and without values. Good until as many others were asked for.
  [[nodiscard]] SQLite::Statement& statement(const std::string& sql);

  /// Resets every statement: one that was left half read would hold its view of the file.
  void let_go();

  SQLite::Database database;
  const std::string path;
  bool read_only = false;
  std::optional<Saving> saving;  ///< Daybook::saving()

 private:
  struct Kept {
    SQLite::Statement statement;
    std::uint64_t used = 0;  // the number of its last use
  };

  void forget_the_oldest();

  std::unordered_map<std::string, Kept> statements_;
  std::uint64_t uses_ = 0;
};

namespace internal {

/// Thrown inside storage to leave a transaction with an error of the user's; never leaves storage.
struct LeaveTransaction {
  Error error;
};

[[noreturn]] inline void refuse(ErrorCode code, std::string where, std::string message) {
  throw LeaveTransaction{Error{code, std::move(where), std::move(message)}};
}

inline constexpr const char* may_only_be_read =
    "may only be read; give yourself the right to write it and its folder";

/// What a baker is told about an exception of SQLite: disk full, not writable, busy, damaged.
/// What nobody can mend is thrown on.
[[nodiscard]] Error said(const SQLite::Exception& exception, const std::string& path);

/// How far a write had come.
enum class Stage { writing, committing };

/// The same of a write that failed: what is known of whether it was saved. Keeps it in
/// connection.saving.
[[nodiscard]] Error not_saved(Daybook::Connection& connection,
                              const SQLite::Exception& exception,
                              Stage stage);

/// Runs f; a refusal or an exception of SQLite becomes an error.
template <class F>
[[nodiscard]] auto guarded(const std::string& path, F f) -> Result<std::invoke_result_t<F>> {
  try {
    return f();
  } catch (const LeaveTransaction& refused) {
    return tl::unexpected<Error>(refused.error);
  } catch (const SQLite::Exception& exception) {
    return tl::unexpected<Error>(said(exception, path));
  }
}

/// The same for work on a connection, which after a failure holds nothing open.
template <class F>
[[nodiscard]] auto guarded(Daybook::Connection& connection, F f)
    -> Result<std::invoke_result_t<F>> {
  auto result = guarded(connection.path, std::move(f));
  if (!result) connection.let_go();
  return result;
}

/// Runs f in one write transaction that waits its turn (BEGIN IMMEDIATE): a transaction that reads
/// first and writes later would be refused at once when another writes. Rolled back if f throws.
template <class F>
[[nodiscard]] auto written(Daybook::Connection& connection, F f)
    -> Result<std::invoke_result_t<F>> {
  return guarded(connection, [&] {
    if (connection.read_only) refuse(ErrorCode::unavailable, connection.path, may_only_be_read);
    Stage stage = Stage::writing;
    try {
      SQLite::Transaction transaction(connection.database, SQLite::TransactionBehavior::IMMEDIATE);
      const int before = connection.database.getTotalChanges();
      auto value = f();
      stage = Stage::committing;
      transaction.commit();
      // Where there was nothing to write, nothing is known of the disk.
      if (connection.database.getTotalChanges() != before) connection.saving = Saving::goes_on;
      return value;
    } catch (const SQLite::Exception& exception) {
      throw LeaveTransaction{not_saved(connection, exception, stage)};
    }
  });
}

/// Writes one line of the feed of changes.
Change note_change(Daybook::Connection& connection, Change change);

/// A new id: 80 random bits.
[[nodiscard]] std::string new_id();

/// Whether there is a record of that kind, in the trash or not.
[[nodiscard]] bool exists(Daybook::Connection& connection, Kind kind, const std::string& id);

}  // namespace internal

}  // namespace barm::storage

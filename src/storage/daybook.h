#pragma once
// The daybook: everything a bakery keeps, in one SQLite file. docs/daybook.md.
//
//     auto daybook = storage::Daybook::open("daybook.barm", {.create = true});
//     storage::ReadingRecord reading;
//     reading.bake = id;  reading.at = now;  reading.height_mm = 84;
//     auto kept = daybook->save(reading, now);      // on the disk when this returns
//
// Errors of every function: not_found, bad_input (a field that cannot be), conflict (saved with a
// revision that is not the newest), unavailable (disk full, file not writable, another program
// holds it for longer than five seconds). After an error nothing is half-written and the daybook
// goes on; "nothing of this was saved" is said when that is known.
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "storage/records.h"

namespace barm::storage {

/// How to open a file.
struct Opening {
  bool create = false;        ///< makes a new daybook when there is no file
  bool read_only = false;     ///< never writes, not even to bring an older daybook up to date
  bool or_read_only = false;  ///< when it may not be written, at least reads it
  int busy_ms = 5000;         ///< how long to wait for another program
};

/// Whether what is saved comes to the disk.
enum class Saving {
  goes_on,     ///< as far as is known
  read_only,   ///< the file or its folder may only be read
  disk_full,   ///< or the file may not grow
  disk_fails,  ///< the disk failed while something was being saved; not known whether it was
};

/// "yes", "read_only", "disk_full", "disk_fails".
[[nodiscard]] std::string name(Saving saving);

/// Which records of a kind to list.
struct Query {
  std::string owner;  ///< the bake, culture or test bake they belong to; empty: all
  std::string text;   ///< title, tags, note, file or remark hold these words; of a bake, also what
                      ///< was written of its readings and loaves, and its month
  std::string state;  ///< of bakes and test bakes; empty: any
  bool with_deleted = false;
  std::size_t limit = 1000000;
  std::size_t offset = 0;
};

/// A bake as a list shows it: without its file.
struct BakeLine {
  Bake bake;  ///< its toml is left empty
  std::int64_t readings = 0;
  std::optional<time::Instant> last_reading;
  std::optional<std::string> photo;  ///< id of the newest of it or its loaves
};

/// One entry of the feed of changes.
struct Change {
  std::int64_t number = 0;  ///< rises by each change, never used twice
  Kind kind = Kind::bake;
  std::string id;
  std::int64_t revision = 0;
  std::string what;  ///< saved, deleted, restored, purged
  time::Instant at;
};

struct Changes {
  std::vector<Change> changes;  ///< ascending
  std::int64_t last = 0;        ///< number of the newest change of all
  bool complete = true;         ///< false: older ones are forgotten, look at everything anew
  bool of_before = false;       ///< the number is of before a copy was put back
};

/// A record in the trash.
struct Deleted {
  Kind kind = Kind::bake;
  std::string id;
  std::string title;
  time::Instant deleted_at;
};

/// How long a deletion can be undone.
inline constexpr std::int64_t undo_seconds = 30 * time::seconds_a_day;

/// One connection to a daybook. Not for two threads at once: each opens its own (storage/pool.h).
class Daybook {
 public:
  /// Errors: not_found (no file and not to be created), bad_input (no daybook, a damaged or
  /// truncated one, one of a newer program), unavailable.
  /// An older daybook is copied to FILE.backups/ and then brought up to date, once nobody else has
  /// it open.
  [[nodiscard]] static Result<Daybook> open(const std::string& path, const Opening& opening = {});

  Daybook(Daybook&&) noexcept;
  Daybook& operator=(Daybook&&) noexcept;
  ~Daybook();

  [[nodiscard]] const std::string& path() const;

  /// How the last attempt to save on this connection went; nothing when there was none.
  [[nodiscard]] std::optional<Saving> saving() const;

  /// As if none had been made.
  void forget_saving();

  [[nodiscard]] bool may_write() const;

  /// Writes a page as it is, to find out whether anything can be saved.
  [[nodiscard]] Result<bool> try_saving();

  /// Saves a record (any struct of records.h; a Photo only with add_photo first). The same record
  /// sent twice is saved once. A feeding, reading, mark, loaf, remark or photo of what is in the
  /// trash brings that back.
  template <class T>
  [[nodiscard]] Result<T> save(T record, time::Instant now);

  /// All of them or none.
  template <class T>
  [[nodiscard]] Result<std::vector<T>> save_all(std::vector<T> records, time::Instant now);

  /// Also one in the trash. Errors: not_found.
  template <class T>
  [[nodiscard]] Result<T> get(const std::string& id);

  /// Newest first: by mixing, by time of the note, or by saving; readings, feedings and marks
  /// oldest first; settings and scales by name.
  template <class T>
  [[nodiscard]] Result<std::vector<T>> list(const Query& query = {});

  [[nodiscard]] Result<std::vector<BakeLine>> list_bakes(const Query& query = {});
  [[nodiscard]] Result<std::int64_t> count(Kind kind, const Query& query = {});
  [[nodiscard]] Result<std::vector<BakeVersion>> history(const std::string& bake);

  /// Puts a record in the trash; with a revision only if that is still the newest. What belongs to
  /// it stays with it and comes back with it.
  [[nodiscard]] Result<Change> remove(Kind kind,
                                      const std::string& id,
                                      std::int64_t revision,
                                      time::Instant now);

  /// Takes it out again. Errors: not_found when it is not in the trash.
  [[nodiscard]] Result<Change> undo(Kind kind, const std::string& id, time::Instant now);

  /// Newest first.
  [[nodiscard]] Result<std::vector<Deleted>> trash();

  /// Deletes for good what has been in the trash for 30 days by the clock and for 30 days on which
  /// something was changed, so that a clock that is wrong for a while empties nothing, and forgets
  /// changes as old. The bakes of a culture that goes keep its name in a remark. Number of records
  /// that went.
  [[nodiscard]] Result<std::int64_t> purge(time::Instant now);

  /// Changes after a number, of this and every other program on the file.
  [[nodiscard]] Result<Changes> changes_after(std::int64_t number, std::size_t limit = 1000);

  /// The least number that a change or a revision of a record has had since the daybook was made or
  /// a copy of it was put back (restore()): another one each time, so that none is given out twice.
  [[nodiscard]] Result<std::int64_t> epoch();

  /// Whether whoever holds this revision of a record read it before a copy was put back, and the
  /// record is another one now, or gone.
  [[nodiscard]] Result<bool> is_of_before(Kind kind, const std::string& id, std::int64_t revision);

  /// Number of the newest change: cheap enough to ask several times a second.
  [[nodiscard]] Result<std::int64_t> last_change();

  /// Keeps a picture: JPEG or PNG of at most 25 MB and 60 megapixels, turned upright, at most 2400
  /// pixels long, without what the camera wrote about place and time, and a thumbnail of 320.
  [[nodiscard]] Result<Photo> add_photo(Photo photo, const std::string& bytes, time::Instant now);

  /// JPEG bytes.
  [[nodiscard]] Result<std::string> picture(const std::string& photo);
  [[nodiscard]] Result<std::string> thumbnail(const std::string& photo);

  /// Copies the whole daybook into a new file, while others write. Errors: bad_input when there is
  /// such a file already.
  [[nodiscard]] Result<std::string> back_up(const std::string& to);

  /// Every page, table, column, index and reference: what is wrong, in words; empty when nothing
  /// is.
  [[nodiscard]] Result<std::vector<std::string>> check();

  /// Records that could not be saved as they stand, each with what is wrong in it: another program
  /// may write the file. Of a daybook in which check() finds nothing.
  [[nodiscard]] Result<std::vector<std::string>> odd_records();

  /// What was worked out from a bake and kept to be quick, when it was made from just that; it is
  /// in no export and tells no change.
  [[nodiscard]] Result<std::optional<std::string>> worked_out(const std::string& bake,
                                                              const std::string& what,
                                                              const std::string& made_from);

  /// Keeps it, in the place of what was made from something else. False when there is no such bake.
  [[nodiscard]] Result<bool> keep_worked_out(const std::string& bake,
                                             const std::string& what,
                                             const std::string& made_from,
                                             const std::string& answer);

  /// Ends what another thread is doing with this connection just now, such as a long copy: there
  /// an exception of SQLite is thrown. The one function that may be called from any thread.
  void interrupt();

  class Connection;  // storage/internal/connection.h

  /// For the other files of storage.
  [[nodiscard]] Connection& connection() { return *connection_; }

 private:
  explicit Daybook(std::unique_ptr<Connection> connection);

  std::unique_ptr<Connection> connection_;
};

/// Puts a copy, of this or an older barm, back in place of a daybook (which is kept beside it as
/// FILE.before-restore-N) after checking the copy; numbers go on from a new epoch. Whenever it is
/// ended, the one or the other stands there whole. Errors: as Daybook::open for the copy;
/// unavailable while anybody has the daybook open.
[[nodiscard]] Result<std::string> restore(const std::string& backup, const std::string& path);

/// The copies in FILE.backups/, newest first (storage/copies.h makes them).
[[nodiscard]] std::vector<std::string> backups_of(const std::string& path);

}  // namespace barm::storage

#include "storage/daybook.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <nlohmann/json.hpp>

#include "storage/internal/checks.h"
#include "storage/internal/columns.h"
#include "storage/internal/connection.h"
#include "storage/internal/epoch.h"
#include "storage/internal/saving.h"
#include "storage/internal/trash.h"

namespace barm::storage {

using internal::guarded;
using internal::refuse;
using internal::words;
using internal::write_new_revision;
using internal::written;

namespace internal {

std::string written_out(const std::vector<std::string>& list) {
  return nlohmann::json(list).dump();
}

std::string written_out(const std::map<std::string, double>& table) {
  return nlohmann::json(table).dump();
}

std::string words(Kind kind) {
  std::string text(name(kind));
  for (char& c : text) c = c == '_' ? ' ' : c;
  return text;
}

void keep_version(Daybook::Connection& connection, const BakeVersion& version) {
  SQLite::Statement& statement = connection.statement(
      "INSERT INTO bake_version (bake, revision, saved_at, title, toml) VALUES (?, ?, ?, ?, ?)");
  statement.bind(1, version.bake);
  statement.bind(2, version.revision);
  statement.bind(3, version.saved_at.seconds);
  statement.bind(4, version.title);
  statement.bind(5, version.toml);
  statement.exec();
}

namespace {

template <class T>
T parsed(const std::string& text) {
  try {
    return nlohmann::json::parse(text).get<T>();
  } catch (const nlohmann::json::exception&) {
    refuse(ErrorCode::bad_input, text.substr(0, 40), "is damaged; look with barm daybook check");
  }
}

}  // namespace

void read_back(const std::string& text, std::vector<std::string>& list) {
  list = parsed<std::vector<std::string>>(text);
}

void read_back(const std::string& text, std::map<std::string, double>& table) {
  table = parsed<std::map<std::string, double>>(text);
}

}  // namespace internal

namespace {

template <class T>
bool same_content(const T& one, T other) {
  static_cast<Record&>(other) = one;
  return one == other;
}

// What the daybook alone says about a picture.
template <class T>
void keep_own_fields(T& record, const std::optional<T>& stored) {
  if constexpr (std::is_same_v<T, Photo>) {
    if (!stored)
      refuse(ErrorCode::bad_input, "photo", "a picture's words come after the picture itself");
    record.width_px = stored->width_px;
    record.height_px = stored->height_px;
    record.size_bytes = stored->size_bytes;
  }
}

template <class T>
T save_one(Daybook::Connection& connection, T record, time::Instant now) {
  if (record.id.empty()) record.id = internal::new_id();
  const auto wrong = internal::wrong_with(record);
  if (wrong) throw internal::LeaveTransaction{*wrong};
  const auto stored = internal::find<T>(connection, record.id);
  const std::string called = fmt::format("{} {}", words(internal::Shape<T>::kind), record.id);
  if (!stored && record.revision != 0)
    refuse(ErrorCode::not_found, called, "is not there any more");
  keep_own_fields(record, stored);
  if (stored) {
    const bool sent_again = record.revision <= stored->revision;
    if (sent_again && same_content(*stored, record)) return *stored;
    if (stored->deleted_at)
      refuse(ErrorCode::conflict, called, "is in the trash; take it out first");
    if (record.revision != stored->revision) {
      refuse(ErrorCode::conflict,
             called,
             fmt::format("was changed elsewhere since (revision {}, yours {}); look at it again",
                         stored->revision,
                         record.revision));
    }
  }
  record.revision = internal::next_revision(connection, stored ? stored->revision : 0);
  record.saved_at = now;
  record.deleted_at.reset();
  internal::bring_owners_back(connection, record, now);
  write_new_revision(connection, record);
  return record;
}

// "WHERE …" of a query; bound by bind_query in the same order.
struct Where {
  std::string sql = " WHERE 1";
  std::vector<std::string> values;

  void add(const std::string& condition, std::string value) {
    sql += " AND " + condition;
    values.push_back(std::move(value));
  }
};

// Each word is looked for in every text, which takes as long as both are long.
constexpr std::size_t most_words = 20;
constexpr std::size_t longest_word = 100;

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> found;
  std::string word;
  for (const char c : text + " ") {
    if (c != ' ') {
      word += c;
    } else if (!word.empty()) {
      found.push_back(std::exchange(word, ""));
    }
    if (found.size() > most_words || word.size() > longest_word)
      refuse(ErrorCode::bad_input,
             "words",
             fmt::format("at most {} words of at most {} bytes", most_words, longest_word));
  }
  return found;
}

std::string like(const std::string& word) {
  std::string pattern = "%";
  for (const char c : word) {
    if (c == '%' || c == '_' || c == '\\') pattern += '\\';
    pattern += c;
  }
  return pattern + "%";
}

template <class T>
Where where(const Query& query) {
  using Shape = internal::Shape<T>;
  Where where;
  if (!query.with_deleted) where.sql += " AND deleted_at IS NULL";
  if (!query.owner.empty()) {
    if (*Shape::owner == '\0')
      refuse(ErrorCode::bad_input, "owner", words(Shape::kind) + " records belong to nothing else");
    where.add(std::string(Shape::owner) + " = ?", query.owner);
  }
  if (!query.state.empty()) {
    if constexpr (std::is_same_v<T, Bake> || std::is_same_v<T, TestBake>) {
      where.add("state = ?", query.state);
    } else {
      refuse(ErrorCode::bad_input, "state", "only bakes and test bakes have a state");
    }
  }
  for (const std::string& word : words_of(query.text))
    where.add(std::string("(") + Shape::searched + ") LIKE ? ESCAPE '\\'", like(word));
  return where;
}

int bind_where(SQLite::Statement& statement, const Where& where) {
  int at = 1;
  for (const std::string& value : where.values) statement.bind(at++, value);
  return at;
}

template <class T>
std::string ordered(const Where& where) {
  return where.sql + " ORDER BY " + internal::Shape<T>::order + " LIMIT ? OFFSET ?";
}

void bind_all(SQLite::Statement& statement, const Where& where, const Query& query) {
  constexpr std::size_t most = std::size_t{1} << 40U;
  const int at = bind_where(statement, where);
  statement.bind(at, static_cast<std::int64_t>(std::min(query.limit, most)));
  statement.bind(at + 1, static_cast<std::int64_t>(std::min(query.offset, most)));
}

template <class T>
std::vector<T> list_of(Daybook::Connection& connection, const Query& query) {
  const Where which = where<T>(query);
  SQLite::Statement& statement = connection.statement(
      "SELECT " + internal::columns<T>() + " FROM " + internal::table<T>() + ordered<T>(which));
  bind_all(statement, which, query);
  std::vector<T> records;
  while (statement.executeStep()) records.push_back(internal::row<T>(statement));
  return records;
}

Change change_row(SQLite::Statement& statement) {
  Change change;
  change.number = statement.getColumn(0).getInt64();
  change.kind = kind_of(statement.getColumn(1).getString()).value_or(Kind::bake);
  change.id = statement.getColumn(2).getString();
  change.revision = statement.getColumn(3).getInt64();
  change.what = statement.getColumn(4).getString();
  change.at.seconds = statement.getColumn(5).getInt64();
  return change;
}

}  // namespace

template <class T>
Result<T> Daybook::save(T record, time::Instant now) {
  return written(*connection_, [&] { return save_one(*connection_, std::move(record), now); });
}

template <class T>
Result<std::vector<T>> Daybook::save_all(std::vector<T> records, time::Instant now) {
  return written(*connection_, [&] {
    for (T& record : records) record = save_one(*connection_, std::move(record), now);
    return std::move(records);
  });
}

template <class T>
Result<T> Daybook::get(const std::string& id) {
  return guarded(*connection_, [&] {
    auto found = internal::find<T>(*connection_, id);
    if (!found) {
      refuse(ErrorCode::not_found,
             fmt::format("{} {}", words(internal::Shape<T>::kind), id),
             "there is no such record");
    }
    return std::move(*found);
  });
}

template <class T>
Result<std::vector<T>> Daybook::list(const Query& query) {
  return guarded(*connection_, [&] { return list_of<T>(*connection_, query); });
}

Result<std::vector<BakeLine>> Daybook::list_bakes(const Query& query) {
  static const std::string sql =
      "SELECT id, revision, saved_at, deleted_at, title, tags, state, '', culture, mixed_at, "
      "finished_at, note, (SELECT count(*) FROM reading r WHERE r.bake = bake.id AND r.deleted_at "
      "IS NULL), (SELECT max(r.at) FROM reading r WHERE r.bake = bake.id AND r.deleted_at IS "
      "NULL), (SELECT p.id FROM photo p WHERE (p.bake = bake.id OR p.loaf IN (SELECT l.id FROM "
      "loaf "
      "l WHERE l.bake = bake.id AND l.deleted_at IS NULL)) AND p.deleted_at IS NULL ORDER BY "
      "p.taken_at DESC, p.id LIMIT 1) FROM bake";
  return guarded(*connection_, [&] {
    const Where which = where<Bake>(query);
    SQLite::Statement& statement = connection_->statement(sql + ordered<Bake>(which));
    bind_all(statement, which, query);
    std::vector<BakeLine> lines;
    while (statement.executeStep()) {
      BakeLine line{internal::row<Bake>(statement), statement.getColumn(12).getInt64(), {}, {}};
      internal::read(statement.getColumn(13), line.last_reading);
      internal::read(statement.getColumn(14), line.photo);
      lines.push_back(std::move(line));
    }
    return lines;
  });
}

Result<std::int64_t> Daybook::count(Kind kind, const Query& query) {
  return guarded(*connection_, [&] {
    return with_record_of(kind, [&](const auto& empty) {
      using T = std::decay_t<decltype(empty)>;
      const Where which = where<T>(query);
      SQLite::Statement& statement =
          connection_->statement("SELECT count(*) FROM " + internal::table<T>() + which.sql);
      bind_where(statement, which);
      statement.executeStep();
      const std::int64_t number = statement.getColumn(0).getInt64();
      statement.reset();
      return number;
    });
  });
}

Result<std::vector<BakeVersion>> Daybook::history(const std::string& bake) {
  return guarded(*connection_, [&] {
    SQLite::Statement& statement = connection_->statement(
        "SELECT bake, revision, saved_at, title, toml FROM bake_version WHERE bake = ? ORDER BY "
        "revision");
    statement.bind(1, bake);
    std::vector<BakeVersion> versions;
    while (statement.executeStep()) {
      versions.push_back({statement.getColumn(0).getString(),
                          statement.getColumn(1).getInt64(),
                          {statement.getColumn(2).getInt64()},
                          statement.getColumn(3).getString(),
                          statement.getColumn(4).getString()});
    }
    if (versions.empty() && !internal::exists(*connection_, Kind::bake, bake))
      refuse(ErrorCode::not_found, "bake " + bake, "there is no such record");
    return versions;
  });
}

Result<std::optional<std::string>> Daybook::worked_out(const std::string& bake,
                                                       const std::string& what,
                                                       const std::string& made_from) {
  return guarded(*connection_, [&]() -> std::optional<std::string> {
    SQLite::Statement& statement = connection_->statement(
        "SELECT answer FROM reckoned WHERE bake = ? AND what = ? AND made_from = ?");
    statement.bind(1, bake);
    statement.bind(2, what);
    statement.bind(3, made_from);
    if (!statement.executeStep()) return std::nullopt;
    std::string answer = statement.getColumn(0).getString();
    statement.reset();
    return answer;
  });
}

Result<bool> Daybook::keep_worked_out(const std::string& bake,
                                      const std::string& what,
                                      const std::string& made_from,
                                      const std::string& answer) {
  return written(*connection_, [&] {
    SQLite::Statement& statement = connection_->statement(
        "INSERT OR REPLACE INTO reckoned (bake, what, made_from, answer) "
        "SELECT id, ?2, ?3, ?4 FROM bake WHERE id = ?1");
    statement.bind(1, bake);
    statement.bind(2, what);
    statement.bind(3, made_from);
    statement.bind(4, answer);
    return statement.exec() > 0;
  });
}

Result<Changes> Daybook::changes_after(std::int64_t number, std::size_t limit) {
  return guarded(*connection_, [&] {
    Changes found;
    found.last = internal::newest_change(*connection_);
    found.of_before = internal::is_lost(*connection_, number);
    SQLite::Statement& oldest =
        connection_->statement("SELECT coalesce(min(number), 0) FROM change");
    oldest.executeStep();
    const std::int64_t first = oldest.getColumn(0).getInt64();
    oldest.reset();
    found.complete =
        !found.of_before && (number >= found.last || (first != 0 && number >= first - 1));
    SQLite::Statement& statement = connection_->statement(
        "SELECT number, kind, id, revision, what, at FROM change WHERE number > ? ORDER BY number "
        "LIMIT ?");
    statement.bind(1, number);
    statement.bind(2, static_cast<std::int64_t>(limit));
    while (statement.executeStep()) found.changes.push_back(change_row(statement));
    return found;
  });
}

Result<std::int64_t> Daybook::last_change() {
  return guarded(*connection_, [&] { return internal::newest_change(*connection_); });
}

// NOLINTBEGIN(bugprone-macro-parentheses): a type cannot stand in them
#define BARM_INSTANTIATE(T)                                                             \
  template Result<T> Daybook::save(T record, time::Instant now);                        \
  template Result<std::vector<T>> Daybook::save_all(std::vector<T>, time::Instant now); \
  template Result<T> Daybook::get(const std::string& id);                               \
  template Result<std::vector<T>> Daybook::list(const Query& query);

// NOLINTEND(bugprone-macro-parentheses)

BARM_EACH_RECORD(BARM_INSTANTIATE)
#undef BARM_INSTANTIATE

}  // namespace barm::storage

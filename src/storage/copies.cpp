#include "storage/copies.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <filesystem>
#include <set>
#include <string_view>

#include "storage/internal/files.h"

namespace barm::storage {

namespace fs = std::filesystem;
using internal::refuse;

namespace {

constexpr std::string_view unchecked = ".unchecked";  // as a copy is called until it is known whole

struct NumberedCopy {
  std::size_t number = 0;
  std::string day, path;
};

// "0012-2026-11-28.barm"; nothing for any other name.
std::optional<NumberedCopy> numbered(const fs::path& path) {
  const std::string name = path.filename().string();
  constexpr std::size_t day_and_ending = 16;
  if (name.size() < day_and_ending + 4 || !name.ends_with(".barm")) return std::nullopt;
  const std::size_t digits = name.size() - day_and_ending;
  NumberedCopy copy{0, name.substr(digits + 1, 10), path.string()};
  const auto [end, error] = std::from_chars(name.data(), name.data() + digits, copy.number);
  const bool good = error == std::errc() && end == name.data() + digits && name[digits] == '-' &&
                    time::parse_instant(copy.day + "T00:00:00Z");
  return good ? std::optional(copy) : std::nullopt;
}

// Newest first.
std::vector<NumberedCopy> numbered_copies(const std::string& daybook) {
  std::vector<NumberedCopy> found;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(internal::backup_folder(daybook), none)) {
    if (auto copy = numbered(entry.path())) found.push_back(std::move(*copy));
  }
  std::sort(found.begin(), found.end(), [](const auto& one, const auto& other) {
    return one.number > other.number;
  });
  return found;
}

// What tells two states of one daybook apart: the last change with all that is said of it.
std::string last_change_of(Daybook::Connection& connection) {
  SQLite::Statement& statement = connection.statement(
      "SELECT (SELECT user_version FROM pragma_user_version) || ' ' || number || ' ' || kind || ' "
      "' || id || ' ' || revision || ' ' || what || ' ' || at FROM change ORDER BY number DESC "
      "LIMIT 1");
  std::string text = statement.executeStep() ? statement.getColumn(0).getString() : "";
  statement.reset();
  return text;
}

// A copy is a file that nobody writes.
Daybook::Connection opened(const std::string& copy) {
  return {
      copy, internal::as_uri(copy) + "?immutable=1", SQLite::OPEN_READONLY | SQLite::OPEN_URI, 100};
}

bool holds_the_same(Daybook::Connection& daybook, const std::string& copy) {
  const std::string ours = last_change_of(daybook);
  if (ours.empty()) return false;
  try {
    auto connection = opened(copy);
    return last_change_of(connection) == ours;
  } catch (const SQLite::Exception&) {
    return false;  // a damaged copy holds nothing
  }
}

bool is_whole(const std::string& copy) {
  try {
    return opened(copy).database.execAndGet("PRAGMA quick_check(1)").getString() == "ok";
  } catch (const SQLite::Exception&) {
    return false;
  }
}

// Which of them stay, by their place in a list that begins with the newest. Only numbers count,
// and a day ends where the next copy has another one, so that it does not matter what days the
// clock has shown.
std::set<std::size_t> staying(const std::vector<NumberedCopy>& copies) {
  std::set<std::size_t> stay;
  std::size_t days = 0;
  std::size_t sevens = 0;
  std::size_t last_seven = SIZE_MAX;
  for (std::size_t i = 0; i < copies.size(); ++i) {
    const bool last_of_its_day = i == 0 || copies[i].day != copies[i - 1].day;
    if (i < last_copies_kept || (last_of_its_day && days < days_kept)) {
      stay.insert(i);
    } else if (copies[i].number / 7 != last_seven && sevens < sevens_kept) {
      stay.insert(i);
      last_seven = copies[i].number / 7;
      ++sevens;
    }
    if (last_of_its_day) ++days;
  }
  return stay;
}

// What a program that was ended in the middle of a copy has left.
void sweep(const std::string& daybook) {
  constexpr auto long_enough = std::chrono::hours(24);
  const auto before = fs::file_time_type::clock::now() - long_enough;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(internal::backup_folder(daybook), none)) {
    const bool half_made = entry.path().filename().string().find(unchecked) != std::string::npos;
    if (half_made && entry.last_write_time(none) < before) fs::remove(entry.path(), none);
  }
}

void let_older_ones_go(const std::string& daybook) {
  sweep(daybook);
  const auto copies = numbered_copies(daybook);
  const auto stay = staying(copies);
  for (std::size_t i = 0; i < copies.size(); ++i) {
    if (!stay.contains(i)) fs::remove(copies[i].path);
  }
}

// Under a name that is looked for only once the copy was found whole.
std::string new_copy(Daybook& daybook, std::size_t number, time::Instant now) {
  const std::string folder = internal::backup_folder(daybook.path());
  fs::create_directories(folder);
  const std::string draft = fmt::format("{}/{}{}", folder, internal::new_id(), unchecked);
  const internal::RemovedAtEnd remove(draft);
  internal::keep_copy(daybook.connection(), draft);
  if (!is_whole(draft))
    refuse(ErrorCode::bad_input,
           daybook.path(),
           "is damaged, and so would the copy be; the copies of before stay. Look with: barm "
           "daybook check");
  const std::string day = now.text().substr(0, 10);
  for (std::size_t n = number;; ++n) {
    std::string name = fmt::format("{}/{:04}-{}.barm", folder, n, day);
    if (!internal::give_name(draft, name)) continue;  // another program just made one
    internal::to_disk(folder);
    return name;
  }
}

template <class F>
auto with_copies(Daybook& daybook, F f) -> decltype(internal::guarded(daybook.connection(), f)) {
  try {
    return internal::guarded(daybook.connection(), f);
  } catch (const fs::filesystem_error& trouble) {
    return failure(
        ErrorCode::unavailable, internal::backup_folder(daybook.path()), trouble.code().message());
  }
}

Copy made_now(Daybook& daybook, const std::vector<NumberedCopy>& copies, time::Instant now) {
  Copy copy{new_copy(daybook, copies.empty() ? 1 : copies.front().number + 1, now), true};
  let_older_ones_go(daybook.path());
  return copy;
}

}  // namespace

std::vector<std::string> backups_of(const std::string& path) {
  std::vector<std::string> names;
  for (const NumberedCopy& copy : numbered_copies(path)) names.push_back(copy.path);
  std::vector<std::pair<fs::file_time_type, std::string>> others;
  std::error_code none;
  for (const auto& entry : fs::directory_iterator(internal::backup_folder(path), none)) {
    if (entry.path().extension() == ".barm" && !numbered(entry.path()))
      others.emplace_back(entry.last_write_time(none), entry.path().string());
  }
  std::sort(others.rbegin(), others.rend());
  for (auto& [time, name] : others) names.push_back(std::move(name));
  return names;
}

void Daybook::interrupt() { sqlite3_interrupt(connection_->database.getHandle()); }

Result<Copy> keep_copy(Daybook& daybook, time::Instant now) {
  return with_copies(daybook, [&] {
    const auto copies = numbered_copies(daybook.path());
    const bool same = !copies.empty() &&
                      holds_the_same(daybook.connection(), copies.front().path) &&
                      is_whole(copies.front().path);
    return same ? Copy{copies.front().path, false} : made_now(daybook, copies, now);
  });
}

Result<std::optional<Copy>> keep_copy_of_the_day(Daybook& daybook, time::Instant now) {
  return with_copies(daybook, [&]() -> std::optional<Copy> {
    const auto copies = numbered_copies(daybook.path());
    if (!copies.empty() && (copies.front().day == now.text().substr(0, 10) ||
                            holds_the_same(daybook.connection(), copies.front().path)))
      return std::nullopt;
    return made_now(daybook, copies, now);
  });
}

}  // namespace barm::storage

// Files that are no daybook, damaged, older, newer, or may only be read; copies and putting back.
#include <gmock/gmock.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <fstream>
#include <random>
#include <sstream>

#include "../support/matchers.h"
#include "daybooks.h"
#include "sql.h"
#include "storage/copies.h"

namespace barm::storage::test {

namespace {

namespace fs = std::filesystem;
using barm::test::FailsWith;
using barm::test::Holds;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

std::string contents(const std::string& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

void write(const std::string& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary | std::ios::trunc) << bytes;
}

// A daybook with a bake and some readings, closed again.
std::string a_daybook(const Folder& folder, int readings = 40) {
  const std::string file = folder / "daybook.barm";
  auto daybook = Daybook::open(file, {.create = true});
  EXPECT_THAT(daybook, Holds());
  EXPECT_THAT(daybook->save(a_bake("b"), noon), Holds());
  for (int i = 0; i < readings; ++i)
    EXPECT_THAT(daybook->save(a_reading("r" + std::to_string(i), "b"), noon), Holds());
  return file;
}

TEST(Opening, SaysWhatIsNotThere) {
  const Folder folder;
  EXPECT_THAT(Daybook::open(folder / "none.barm"), FailsWith(ErrorCode::not_found));
  EXPECT_FALSE(fs::exists(folder / "none.barm"));
  EXPECT_THAT(Daybook::open(folder.path()), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(Daybook::open(folder / "no/folder/x.barm", {.create = true}),
              FailsWith(ErrorCode::unavailable));
}

TEST(Opening, RefusesWhatIsNoDaybook) {
  const Folder folder;
  write(folder / "text.barm", std::string(5000, 'x'));
  EXPECT_THAT(Daybook::open(folder / "text.barm"), FailsWith(ErrorCode::bad_input));
  run_sql(folder / "other.barm", "CREATE TABLE other (x); INSERT INTO other VALUES (1)");
  const auto refused = Daybook::open(folder / "other.barm");
  ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(refused.error().message, HasSubstr("is no daybook"));
}

TEST(Opening, RefusesADaybookOfANewerProgramAndLeavesItAsItIs) {
  const Folder folder;
  const std::string file = a_daybook(folder);
  run_sql(file, "PRAGMA user_version = 999");
  const std::string before = contents(file);
  const auto refused = Daybook::open(file);
  ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(refused.error().message, HasSubstr("newer barm (daybook version 999"));
  EXPECT_EQ(contents(file), before);
}

TEST(Opening, BringsAnOlderDaybookUpToDateWithACopyTakenFirst) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  // Version 0: our mark, no tables yet.
  run_sql(file, "PRAGMA application_id = 1113682541; CREATE TABLE old (x); DROP TABLE old;");
  EXPECT_THAT(Daybook::open(file, {.create = false, .read_only = true}),
              FailsWith(ErrorCode::unavailable));
  EXPECT_THAT(backups_of(file), IsEmpty());
  {
    auto daybook = Daybook::open(file);
    ASSERT_THAT(daybook, Holds());
    EXPECT_THAT(daybook->save(a_bake("b"), noon), Holds());
  }
  const auto copies = backups_of(file);
  ASSERT_THAT(copies, SizeIs(1));
  EXPECT_THAT(copies[0], HasSubstr("before-version-4"));
  EXPECT_THAT(Daybook::open(file), Holds());
  EXPECT_THAT(backups_of(file), SizeIs(1));
}

TEST(Opening, RefusesEveryCutAndOffersToRestore) {
  const Folder folder;
  const std::string file = a_daybook(folder);
  const std::string whole = contents(file);
  ASSERT_GT(whole.size(), 40000U);
  for (const std::size_t size : {std::size_t{0},
                                 std::size_t{50},
                                 std::size_t{100},
                                 std::size_t{4096},
                                 whole.size() / 2,
                                 whole.size() - 4096,
                                 whole.size() - 1}) {
    write(file, whole.substr(0, size));
    const auto refused = Daybook::open(file, {.create = true});
    ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input)) << size;
    EXPECT_THAT(refused.error().message, HasSubstr("cut short")) << size;
    EXPECT_THAT(refused.error().message, HasSubstr("barm daybook restore")) << size;
    EXPECT_EQ(contents(file), whole.substr(0, size)) << "a damaged file is left as it is";
  }
}

TEST(Opening, DamageInsideIsFoundByTheCheckOrRefusedAndNeverACrash) {
  const Folder folder;
  const std::string file = a_daybook(folder, 200);
  const std::string whole = contents(file);
  std::mt19937 random(5);
  std::uniform_int_distribution<std::size_t> page(1, whole.size() / 4096 - 1);
  int noticed = 0;
  constexpr int tries = 60;
  for (int i = 0; i < tries; ++i) {
    std::string damaged = whole;
    // The head of a page: what SQLite reads to find its way.
    for (std::size_t k = 0; k < 12; ++k)
      damaged[page(random) * 4096 + k] = static_cast<char>(random());
    write(file, damaged);
    fs::remove(file + "-wal");
    fs::remove(file + "-shm");
    auto daybook = Daybook::open(file);
    if (!daybook) {
      ++noticed;
      continue;
    }
    const auto wrong = daybook->check();
    const auto readings = daybook->list<ReadingRecord>();
    const auto saved = daybook->save(a_reading("", "b"), noon);
    if (!wrong || !wrong->empty() || !readings || !saved) ++noticed;
  }
  EXPECT_EQ(noticed, tries);
}

TEST(Restoring, PutsACopyInPlaceAndKeepsTheOldFile) {
  const Folder folder;
  const std::string file = a_daybook(folder);
  std::string copy;
  {
    auto daybook = Daybook::open(file);
    ASSERT_THAT(daybook, Holds());
    const auto kept = keep_copy(*daybook, noon);
    ASSERT_THAT(kept, Holds());
    copy = kept->name;
    EXPECT_EQ(copy, file + ".backups/0001-2026-11-29.barm");
    EXPECT_THAT(daybook->save(a_reading("later", "b"), noon), Holds());
    EXPECT_THAT(restore(copy, file), FailsWith(ErrorCode::unavailable)) << "it is open";
  }
  const std::string whole = contents(file);
  write(file, whole.substr(0, 9000));
  const auto refused = Daybook::open(file);
  ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(refused.error().message, HasSubstr(copy));

  ASSERT_THAT(restore(copy, file), Holds());
  auto daybook = Daybook::open(file);
  ASSERT_THAT(daybook, Holds());
  EXPECT_THAT(*daybook->check(), IsEmpty());
  EXPECT_EQ(*daybook->count(Kind::reading), 40);
  EXPECT_EQ(contents(file + ".before-restore-1"), whole.substr(0, 9000));
}

TEST(Restoring, RefusesACopyThatIsDamagedItself) {
  const Folder folder;
  const std::string file = a_daybook(folder);
  const std::string whole = contents(file);
  write(folder / "copy.barm", whole.substr(0, whole.size() - 5000));
  EXPECT_THAT(restore(folder / "copy.barm", file), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(restore(folder / "none.barm", file), FailsWith(ErrorCode::not_found));
  EXPECT_EQ(contents(file), whole);
}

// What goes wrong in a program that may only read the file; empty when all is as it should be.
std::string trouble_reading_only(const std::string& file) {
  auto reading = Daybook::open(file, {.create = false, .read_only = true});
  if (!reading) return "opening for reading: " + reading.error().text();
  const auto bakes = reading->list_bakes();
  if (!bakes || bakes->size() != 1) return "listing";
  if (reading->save(a_reading("x", "b"), noon)) return "it was written";
  auto writing = Daybook::open(file);
  const Error error = writing ? writing->save(a_reading("x", "b"), noon).error() : writing.error();
  if (error.code != ErrorCode::unavailable) return "the code of: " + error.text();
  if (error.message.find("may") == std::string::npos) return "the words: " + error.text();
  return "";
}

TEST(ReadOnly, IsReadAndEveryWriteIsRefusedWithAClearWord) {
  const Folder folder;
  const std::string file = a_daybook(folder);
  ASSERT_EQ(chmod(file.c_str(), 0444), 0);
  ASSERT_EQ(chmod(folder.path().c_str(), 0555), 0);
  // Rights do not bind root, so somebody else looks.
  const pid_t child = fork();
  if (child == 0) {
    if (geteuid() == 0 && setuid(65534) != 0) _exit(3);
    const std::string trouble = trouble_reading_only(file);
    if (!trouble.empty()) std::fprintf(stderr, "%s\n", trouble.c_str());
    _exit(trouble.empty() ? 0 : 1);
  }
  int status = 0;
  waitpid(child, &status, 0);
  EXPECT_EQ(WIFEXITED(status) ? WEXITSTATUS(status) : 128, 0);
  chmod(folder.path().c_str(), 0755);
}

}  // namespace

}  // namespace barm::storage::test

// Daybooks of every version there was, from versions/*.sql, brought up to date.
#include <gmock/gmock.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <map>
#include <thread>

#include "../support/matchers.h"
#include "daybooks.h"
#include "programs.h"
#include "sql.h"

namespace barm::storage::test {

namespace {

namespace fs = std::filesystem;
using barm::test::FailsWith;
using barm::test::Holds;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

std::vector<std::string> every_version() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(BARM_TEST_DATA "/storage/versions"))
    names.push_back(entry.path().stem().string());
  return names;
}

// Its tables as they were made, without what SQLite keeps for itself.
std::vector<std::string> schema_of(const std::string& file) {
  return rows_of(
      file, "SELECT name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite_%' ORDER BY name");
}

std::string version_in(const std::string& file) {
  return rows_of(file, "PRAGMA user_version").front();
}

// All that stands in the columns there are now, so that it can be asked for again later.
std::map<std::string, std::vector<std::string>> all_of(const std::string& file) {
  std::map<std::string, std::vector<std::string>> all;
  for (const std::string& table : rows_of(
           file,
           "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")) {
    const std::string sql =
        "SELECT " + quoted_columns(file, table) + " FROM " + table + " ORDER BY 1, 2";
    all[sql] = rows_of(file, sql);
  }
  return all;
}

class EveryVersion : public testing::TestWithParam<std::string> {};

TEST_P(EveryVersion, IsBroughtUpToDateWithAllThatIsInIt) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  make_version(file, GetParam());
  const auto before = all_of(file);
  ASSERT_THAT(before, SizeIs(testing::Ge(16U)));
  {
    auto daybook = Daybook::open(file);
    ASSERT_THAT(daybook, Holds());
    EXPECT_THAT(*daybook->check(), IsEmpty());
    EXPECT_EQ(daybook->get<ReadingRecord>("look-2")->remark, "domed; 'soft'");
    EXPECT_THAT(*daybook->history("marsh"), SizeIs(2));
    EXPECT_EQ(*daybook->last_change(), 41);
    EXPECT_EQ(*daybook->epoch(), 1);
    EXPECT_THAT(*daybook->trash(), SizeIs(1));
    EXPECT_EQ(daybook->picture("seen")->size(), 6U);
  }
  for (const auto& [sql, rows] : before) EXPECT_EQ(rows_of(file, sql), rows) << sql;
  auto daybook = Daybook::open(file);
  Bake bake = *daybook->get<Bake>("marsh");
  bake.note = "better the second time";
  EXPECT_EQ(daybook->save(bake, noon)->revision, 5);
}

// The older program finds its own tables in it, and all that it had written.
TEST_P(EveryVersion, IsCopiedFirstJustAsItIs) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  make_version(file, GetParam());
  const auto schema = schema_of(file);
  const auto before = all_of(file);
  const std::string version = version_in(file);
  ASSERT_THAT(Daybook::open(file), Holds());
  EXPECT_NE(version_in(file), version);
  const auto copies = backups_of(file);
  ASSERT_THAT(copies, SizeIs(1));
  EXPECT_EQ(version_in(copies.front()), version);
  EXPECT_EQ(rows_of(copies.front(), "PRAGMA application_id").front(), "1113682541");
  EXPECT_EQ(schema_of(copies.front()), schema);
  EXPECT_EQ(all_of(copies.front()), before);
  EXPECT_THAT(Daybook::open(file), Holds());
  EXPECT_THAT(backups_of(file), SizeIs(1)) << "once";
}

INSTANTIATE_TEST_SUITE_P(Upgrade,
                         EveryVersion,
                         testing::ValuesIn(every_version()),
                         [](const auto& tested) {
                           std::string name = tested.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(Upgrade, HasADaybookOfEveryVersionAndLeadsToTheTablesOfANewOne) {
  const Folder folder;
  const std::string anew = folder / "new.barm";
  ASSERT_THAT(Daybook::open(anew, {.create = true}), Holds());
  const int newest = std::stoi(version_in(anew));
  for (int version = 1; version < newest; ++version) {
    const std::string name = "version-" + std::to_string(version);
    ASSERT_THAT(every_version(), Contains(name)) << "write its fixture before it is forgotten";
    const std::string file = folder / (name + ".barm");
    make_version(file, name);
    EXPECT_EQ(version_in(file), std::to_string(version));
    ASSERT_THAT(Daybook::open(file), Holds());
    EXPECT_EQ(schema_of(file), schema_of(anew)) << name;
  }
}

TEST(Upgrade, WaitsUntilNobodyElseHasItOpen) {
  const Folder folder;
  const std::string file = folder / "daybook.barm";
  make_version(file, "version-2");
  {
    Program older({BARM_WORKER, "hold", file});
    ASSERT_EQ(older.line(), "open");
    const auto refused = Daybook::open(file, {.busy_ms = 300});
    ASSERT_THAT(refused, FailsWith(ErrorCode::unavailable));
    EXPECT_THAT(refused.error().message, HasSubstr("another program has it open"));
    EXPECT_EQ(version_in(file), "2");
    EXPECT_THAT(backups_of(file), IsEmpty());
  }
  EXPECT_THAT(Daybook::open(file, {.busy_ms = 300}), Holds());
  EXPECT_EQ(version_in(file), "4");
}

TEST(Upgrade, KilledInItsMiddleLeavesTheOldOrTheNew) {
  const Folder folder;
  const std::string old = folder / "old.barm";
  make_version(old, "version-1");
  const std::string whole = folder / "whole.barm";
  fs::copy_file(old, whole);
  const auto begun = std::chrono::steady_clock::now();
  ASSERT_EQ(Program({BARM_WORKER, "write", whole, "one", "0"}).wait_for_end(), 0);
  AboutTheChange life(std::chrono::steady_clock::now() - begun, 20261128);
  std::map<std::string, int> found;
  for (int round = 0; round < 30; ++round) {
    const std::string file = folder / (std::to_string(round) + ".barm");
    fs::copy_file(old, file);
    {
      Program upgrading({BARM_WORKER, "write", file, "one", "0"});
      std::this_thread::sleep_for(life.next());
      upgrading.kill_now();
    }
    const std::string version = version_in(file);
    ++found[version];
    life.seen(version != version_in(old));
    auto daybook = Daybook::open(file);
    ASSERT_THAT(daybook, Holds()) << "round " << round;
    EXPECT_THAT(*daybook->check(), IsEmpty());
    EXPECT_EQ(daybook->get<Culture>("sluice")->title, "Sluice");
  }
  EXPECT_THAT(found, SizeIs(2)) << "killed too early each time, or too late";
}

}  // namespace

}  // namespace barm::storage::test

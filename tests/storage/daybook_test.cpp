#include "storage/daybook.h"

#include <gmock/gmock.h>
#include <sqlite3.h>

#include "../support/matchers.h"
#include "daybooks.h"
#include "storage/internal/connection.h"
#include "storage/internal/fields.h"

namespace barm::storage::test {

namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

class DaybookFile : public testing::Test {
 protected:
  void SetUp() override {
    auto opened = Daybook::open(folder_ / "daybook.barm", {.create = true});
    ASSERT_THAT(opened, Holds());
    daybook_.emplace(std::move(*opened));
  }

  Daybook& daybook() { return *daybook_; }

  template <class T>
  T kept(T record, time::Instant at = noon) {
    auto saved = daybook_->save(std::move(record), at);
    EXPECT_THAT(saved, Holds());
    return saved ? *saved : T{};
  }

  // One value from the file, asked past our code.
  std::string asked(const std::string& sql) {
    sqlite3* raw = nullptr;
    EXPECT_EQ(sqlite3_open((folder_ / "daybook.barm").c_str(), &raw), SQLITE_OK);
    std::string answer;
    const auto first = [](void* to, int, char** values, char**) {
      if (values[0] != nullptr) *static_cast<std::string*>(to) += values[0];
      return 0;
    };
    EXPECT_EQ(sqlite3_exec(raw, sql.c_str(), first, &answer, nullptr), SQLITE_OK)
        << sqlite3_errmsg(raw);
    sqlite3_close(raw);
    return answer;
  }

  Folder folder_;
  std::optional<Daybook> daybook_;
};

TEST_F(DaybookFile, KeepsEveryFieldOfEveryKind) {
  kept(a_culture("c"));
  Bake bake = a_bake("b");
  bake.tags = {"mead, strong", "winter"};
  bake.culture = "c";
  bake.state = "finished";
  bake.finished_at = noon + 40000;
  bake.note = "half \"and\" half\n=1+1";
  kept(bake);
  Culture taught = a_culture("taught");
  taught.memory = "name = \"x\"\n";
  taught.left_out = {"b", "not_there_any_more"};
  kept(taught);
  Feeding feeding;
  feeding.id = "f";
  feeding.culture = "c";
  feeding.at = noon;
  feeding.ripe_g = 100.25;
  feeding.flour_g = 200;
  feeding.water_g = 100;
  feeding.temperature_C = 25.5;
  kept(feeding);
  ReadingRecord reading = a_reading("r", "b", 61.5);
  reading.ratio = 1.0 / 3;
  reading.sample_C = 24.1;
  reading.ph = 4.55;
  reading.remark = "dome ünd edge";
  kept(reading);
  Mark mark;
  mark.id = "m";
  mark.bake = "b";
  mark.what = "weigh";
  mark.of = "dry mead";
  mark.stage = 0;
  mark.poured_g = 566.5;
  mark.at = noon;
  kept(mark);
  Loaf loaf;
  loaf.id = "l";
  loaf.bake = "b";
  loaf.baked_at = noon;
  loaf.dough_g = 900;
  loaf.scores = {{"crumb", 4}, {"sourness", 2.5}};
  kept(loaf);
  Scale scale;
  scale.id = "s";
  scale.title = "crumb";
  kept(scale);
  Remark remark;
  remark.id = "k";
  remark.bake = "b";
  remark.at = noon;
  remark.text = "left the door open";
  kept(remark);
  Setting setting;
  setting.id = "weight_unit";
  setting.value = "g";
  kept(setting);
  TestBake test;
  test.id = "t";
  test.title = "Is it the alcohol?";
  test.document = "{}";
  kept(test);
  TestMember member;
  member.id = "tm";
  member.test_bake = "t";
  member.bake = "b";
  member.label = "A";
  kept(member);
  kept(a_bottle("o"));
  kept(an_oven("deck"));

  daybook_.reset();
  auto again = Daybook::open(folder_ / "daybook.barm");
  ASSERT_THAT(again, Holds());
  const auto same = [](auto record, const auto& wanted) {
    ASSERT_THAT(record, Holds());
    EXPECT_EQ(record->revision, 1);
    EXPECT_EQ(record->saved_at, noon);
    static_cast<Record&>(*record) = wanted;
    EXPECT_EQ(*record, wanted);
  };
  same(again->get<Bake>("b"), bake);
  same(again->get<Feeding>("f"), feeding);
  same(again->get<ReadingRecord>("r"), reading);
  same(again->get<Mark>("m"), mark);
  same(again->get<Loaf>("l"), loaf);
  same(again->get<Scale>("s"), scale);
  same(again->get<Remark>("k"), remark);
  same(again->get<Setting>("weight_unit"), setting);
  same(again->get<TestBake>("t"), test);
  same(again->get<TestMember>("tm"), member);
  same(again->get<Equipment>("deck"), an_oven("deck"));
  same(again->get<Bottle>("o"), a_bottle("o"));
  same(again->get<Culture>("c"), a_culture("c"));
  same(again->get<Culture>("taught"), taught);
}

// The day the house goes by is one: of four bakes over 20 000 bytes, which were refused.
TEST_F(DaybookFile, HoldsALongSetting) {
  Setting setting;
  setting.id = "day-plan";
  setting.value = std::string(300'000, 'x');
  EXPECT_THAT(daybook().save(setting, noon), Holds());
  EXPECT_EQ(daybook().get<Setting>("day-plan")->value.size(), 300'000U);
}

TEST_F(DaybookFile, IsStrictAndSafeInItsSettings) {
  EXPECT_EQ(asked("PRAGMA journal_mode"), "wal");
  EXPECT_EQ(asked("SELECT count(*) FROM pragma_table_list WHERE type = 'table' AND schema = 'main' "
                  "AND NOT strict AND name NOT LIKE 'sqlite_%'"),
            "0");
  EXPECT_THAT(daybook().check(), Holds());
}

TEST_F(DaybookFile, TablesHaveTheColumnsOfTheRecords) {
  internal::each_kind([&](auto record) {
    std::string wanted = "id,revision,saved_at,deleted_at";
    internal::each_field(
        record, [&](const char* field, const auto&) { wanted += std::string(",") + field; });
    const std::string table(name(internal::Shape<decltype(record)>::kind));
    EXPECT_EQ(asked("SELECT group_concat(name) FROM pragma_table_info('" + table + "')"), wanted);
  });
}

TEST_F(DaybookFile, KeepsWhatWasWorkedOutForAsLongAsItIsMadeFromTheSame) {
  kept(a_bake("b"));
  const auto change = daybook().last_change();
  EXPECT_EQ(daybook().worked_out("b", "lesson", "one").value(), std::nullopt);
  ASSERT_THAT(daybook().keep_worked_out("b", "lesson", "one", "first"), Holds());
  EXPECT_EQ(daybook().worked_out("b", "lesson", "one").value(), "first");
  EXPECT_EQ(daybook().worked_out("b", "ready", "one").value(), std::nullopt);
  EXPECT_EQ(daybook().worked_out("b", "lesson", "two").value(), std::nullopt);
  ASSERT_THAT(daybook().keep_worked_out("b", "lesson", "two", "second"), Holds());
  EXPECT_EQ(daybook().worked_out("b", "lesson", "one").value(), std::nullopt);
  EXPECT_EQ(asked("SELECT count(*) FROM reckoned"), "1");
  EXPECT_EQ(daybook().last_change().value(), change.value());
  // It goes with its bake, and is nothing to an unknown one.
  EXPECT_EQ(daybook().keep_worked_out("no such bake", "lesson", "one", "x").value(), false);
  ASSERT_THAT(daybook().remove(Kind::bake, "b", 1, noon), Holds());
  for (int day = 1; day <= 31; ++day)
    ASSERT_THAT(
        daybook().save(a_bake("day" + std::to_string(day)), noon + day * time::seconds_a_day),
        Holds());
  ASSERT_THAT(daybook().purge(noon + undo_seconds + 1), Holds());
  EXPECT_EQ(asked("SELECT count(*) FROM reckoned"), "0");
}

TEST_F(DaybookFile, ListsTheBakesOfACulture) {
  kept(a_culture("c"));
  Bake of_culture = a_bake("b");
  of_culture.culture = "c";
  kept(of_culture);
  kept(a_bake("other"));
  Query query;
  query.owner = "c";
  const auto lines = daybook().list_bakes(query);
  ASSERT_THAT(lines, Holds());
  ASSERT_EQ(lines->size(), 1);
  EXPECT_EQ(lines->front().bake.id, "b");
  EXPECT_EQ(daybook().list<Bake>(query)->size(), 1);
}

TEST_F(DaybookFile, RefusesASecondWriterOfTheSameRevision) {
  const Bake first = kept(a_bake("b"));
  Bake mine = first;
  mine.note = "mine";
  Bake yours = first;
  yours.note = "yours";
  EXPECT_EQ(kept(mine).revision, 2);
  const auto refused = daybook().save(yours, noon);
  ASSERT_THAT(refused, FailsWith(ErrorCode::conflict));
  EXPECT_EQ(daybook().get<Bake>("b")->note, "mine");
  yours.revision = 2;
  EXPECT_EQ(kept(yours).revision, 3);
}

TEST_F(DaybookFile, TheSameReadingSentTwiceIsKeptOnce) {
  kept(a_bake("b"));
  const ReadingRecord once = kept(a_reading("phone-1", "b"));
  const ReadingRecord twice = kept(a_reading("phone-1", "b"), noon + 60);
  EXPECT_EQ(once, twice);
  EXPECT_EQ(daybook().count(Kind::reading), 1);
  EXPECT_THAT(daybook().save(a_reading("phone-1", "b", 75), noon), FailsWith(ErrorCode::conflict));
}

TEST_F(DaybookFile, AnEmptyIdIsFilledInAndNeverTwiceTheSame) {
  kept(a_bake("b"));
  const ReadingRecord one = kept(a_reading("", "b"));
  const ReadingRecord other = kept(a_reading("", "b"));
  EXPECT_THAT(one.id, SizeIs(16));
  EXPECT_NE(one.id, other.id);
}

TEST_F(DaybookFile, AllOfManyOrNone) {
  kept(a_bake("b"));
  const auto refused = daybook().save_all(
      std::vector<ReadingRecord>{a_reading("1", "b"), a_reading("2", "b", -4)}, noon);
  ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(refused.error().where, "height_mm");
  EXPECT_EQ(daybook().count(Kind::reading), 0);
}

TEST_F(DaybookFile, NamesTheOwnerThatIsMissing) {
  const auto refused = daybook().save(a_reading("r", "nowhere"), noon);
  ASSERT_THAT(refused, FailsWith(ErrorCode::not_found));
  EXPECT_EQ(refused.error().text(), "bake  there is no bake 'nowhere'");
}

TEST_F(DaybookFile, RefusesWhatNoBakerCanMean) {
  kept(a_bake("b"));
  ReadingRecord reading = a_reading("r", "b");
  reading.height_mm = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THAT(daybook().save(reading, noon), FailsWith(ErrorCode::bad_input));
  reading.height_mm = std::numeric_limits<double>::infinity();
  EXPECT_THAT(daybook().save(reading, noon), FailsWith(ErrorCode::bad_input));
  reading.height_mm.reset();
  EXPECT_THAT(daybook().save(reading, noon), FailsWith(ErrorCode::bad_input));
  reading.remark = "\xC3\x28";  // not UTF-8
  EXPECT_THAT(daybook().save(reading, noon), FailsWith(ErrorCode::bad_input));
  reading.remark = std::string("a\0b", 3);
  EXPECT_THAT(daybook().save(reading, noon), FailsWith(ErrorCode::bad_input));
  reading.remark = "fine";
  reading.id = "../../etc/passwd";
  EXPECT_THAT(daybook().save(reading, noon), FailsWith(ErrorCode::bad_input));
  Bottle bottle = a_bottle("o");
  bottle.price = "9,60";
  EXPECT_THAT(daybook().save(bottle, noon), FailsWith(ErrorCode::bad_input));
  bottle.price = "9.60";
  bottle.left_mL = 800;
  EXPECT_THAT(daybook().save(bottle, noon), FailsWith(ErrorCode::bad_input));
  Bake bake = a_bake("x");
  bake.state = "eaten";
  EXPECT_THAT(daybook().save(bake, noon), FailsWith(ErrorCode::bad_input));
}

TEST_F(DaybookFile, KeepsEveryVersionOfABake) {
  Bake bake = kept(a_bake("b"));
  bake.toml += "pieces = 4\n";
  bake = kept(bake, noon + 10);
  bake.toml += "note = \"x\"\n";
  bake = kept(bake, noon + 20);
  const auto history = daybook().history("b");
  ASSERT_THAT(history, Holds());
  ASSERT_THAT(*history, SizeIs(3));
  EXPECT_EQ(history->front().toml, a_bake("b").toml);
  EXPECT_EQ(history->back().toml, bake.toml);
  EXPECT_EQ(history->back().saved_at, noon + 20);
  EXPECT_THAT(daybook().history("nowhere"), FailsWith(ErrorCode::not_found));
}

TEST_F(DaybookFile, ADeletionIsUndoneWithAllThatBelongsToIt) {
  kept(a_bake("b"));
  kept(a_reading("r", "b"));
  ASSERT_THAT(daybook().remove(Kind::bake, "b", 1, noon), Holds());
  EXPECT_THAT(*daybook().list<Bake>(), IsEmpty());
  ASSERT_THAT(*daybook().trash(), SizeIs(1));
  EXPECT_EQ(daybook().trash()->front().title, "Marsh loaf");
  ASSERT_THAT(daybook().undo(Kind::bake, "b", noon + 29 * time::seconds_a_day), Holds());
  EXPECT_THAT(*daybook().list<Bake>(), SizeIs(1));
  Query of_bake;
  of_bake.owner = "b";
  EXPECT_THAT(*daybook().list<ReadingRecord>(of_bake), SizeIs(1));
  EXPECT_THAT(daybook().undo(Kind::bake, "b", noon), FailsWith(ErrorCode::not_found));
}

TEST_F(DaybookFile, DoesNotDeleteWhatSomeoneElseHasChanged) {
  kept(a_bake("b"));
  Bake changed = *daybook().get<Bake>("b");
  changed.note = "new";
  kept(changed);
  EXPECT_THAT(daybook().remove(Kind::bake, "b", 1, noon), FailsWith(ErrorCode::conflict));
  EXPECT_THAT(daybook().remove(Kind::bake, "nowhere", 0, noon), FailsWith(ErrorCode::not_found));
}

TEST_F(DaybookFile, NothingIsSavedOverARecordInTheTrash) {
  Bake bake = kept(a_bake("b"));
  ASSERT_THAT(daybook().remove(Kind::bake, "b", 0, noon), Holds());
  bake.note = "late";
  bake.revision = 2;
  EXPECT_THAT(daybook().save(bake, noon), FailsWith(ErrorCode::conflict));
}

TEST_F(DaybookFile, TellsChangesInOrderAndWhetherSomeAreForgotten) {
  kept(a_bake("b"));
  kept(a_reading("r", "b"));
  ASSERT_THAT(daybook().remove(Kind::reading, "r", 0, noon), Holds());
  const auto all = daybook().changes_after(0);
  ASSERT_THAT(all, Holds());
  ASSERT_THAT(all->changes, SizeIs(3));
  EXPECT_TRUE(all->complete);
  EXPECT_EQ(all->changes[0].kind, Kind::bake);
  EXPECT_EQ(all->changes[1].what, "saved");
  EXPECT_EQ(all->changes[2].what, "deleted");
  EXPECT_EQ(all->last, all->changes[2].number);
  EXPECT_EQ(*daybook().last_change(), all->last);
  EXPECT_THAT(daybook().changes_after(all->last)->changes, IsEmpty());
  for (int day = 1; day <= 31; ++day) {
    Bake bake = *daybook().get<Bake>("b");
    bake.note = std::to_string(day);
    ASSERT_THAT(daybook().save(bake, noon + day * time::seconds_a_day), Holds());
  }
  EXPECT_EQ(*daybook().purge(noon + 31 * time::seconds_a_day), 1);
  EXPECT_FALSE(daybook().changes_after(0)->complete);
  EXPECT_TRUE(daybook().changes_after(all->last)->complete);
}

TEST_F(DaybookFile, RefusesASearchThatWouldTakeTooLong) {
  Bake bake = a_bake("b");
  bake.toml = std::string(900000, 'a');
  kept(bake);
  Query query;
  for (int i = 0; i < 1100; ++i) query.text += "word" + std::to_string(i) + " ";
  EXPECT_THAT(daybook().list<Bake>(query), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(daybook().count(Kind::bake, query), FailsWith(ErrorCode::bad_input));
  query.text = std::string(3000, 'a') + "b";
  EXPECT_THAT(daybook().list_bakes(query), FailsWith(ErrorCode::bad_input));
  query.text = std::string(100, 'a') + " marsh";
  EXPECT_THAT(*daybook().list_bakes(query), SizeIs(1));
}

TEST_F(DaybookFile, KeepsABoundedNumberOfPreparedStatements) {
  for (int i = 0; i < 2000; ++i) {
    Query query;
    for (int k = 0; k <= i % 20; ++k) query.text += "w ";
    query.with_deleted = i % 2 == 0;
    query.owner = i % 3 == 0 ? "" : "c";
    static_cast<void>(daybook().list<Bake>(query));
    static_cast<void>(daybook().list<ReadingRecord>(query));
    static_cast<void>(daybook().list_bakes(query));
    static_cast<void>(daybook().count(Kind::feeding, query));
  }
  std::size_t prepared = 0;
  sqlite3* handle = daybook().connection().database.getHandle();
  for (sqlite3_stmt* one = sqlite3_next_stmt(handle, nullptr); one != nullptr;
       one = sqlite3_next_stmt(handle, one))
    ++prepared;
  EXPECT_LE(prepared, Daybook::Connection::most_statements);
}

TEST_F(DaybookFile, FindsBakesByWordsTagsAndState) {
  Bake mead = a_bake("1", "Mead loaf");
  mead.tags = {"trial"};
  mead.state = "live";
  kept(mead);
  Bake stout = a_bake("2", "Stout loaf 100%");
  stout.mixed_at = noon + 60;
  kept(stout);
  const auto found = [&](const Query& query) {
    std::vector<std::string> ids;
    const auto lines = daybook().list_bakes(query);
    EXPECT_THAT(lines, Holds());
    for (const BakeLine& line : *lines) ids.push_back(line.bake.id);
    return ids;
  };
  Query query;
  EXPECT_THAT(found(query), ElementsAre("2", "1"));
  query.text = "LOAF mead";
  EXPECT_THAT(found(query), ElementsAre("1"));
  query.text = "trial";
  EXPECT_THAT(found(query), ElementsAre("1"));
  query.text = "100%";
  EXPECT_THAT(found(query), ElementsAre("2"));
  query.text = "%";
  EXPECT_THAT(found(query), ElementsAre("2"));
  query.text = "'; DROP TABLE bake; --";
  EXPECT_THAT(found(query), IsEmpty());
  query.text = "";
  query.state = "live";
  EXPECT_THAT(found(query), ElementsAre("1"));
  query.state = "";
  query.limit = 1;
  query.offset = 1;
  EXPECT_THAT(found(query), ElementsAre("1"));
}

TEST_F(DaybookFile, FindsBakesByWhatWasWrittenOfLoavesAndReadingsAndByMonth) {
  Bake perry = a_bake("1", "Perry loaf");
  perry.mixed_at = time::Instant{1793264400};  // 2026-10-29
  kept(perry);
  kept(a_bake("2", "Stout loaf"));
  Loaf loaf;
  loaf.id = "l";
  loaf.bake = "1";
  loaf.baked_at = noon;
  loaf.taste = "like pears in hay";
  kept(loaf);
  ReadingRecord reading = a_reading("r", "1", 61.5);
  reading.remark = "a skin on it";
  kept(reading);
  const auto found = [&](const std::string& words) {
    std::vector<std::string> ids;
    Query query;
    query.text = words;
    const auto lines = daybook().list_bakes(query);
    EXPECT_THAT(lines, Holds());
    for (const BakeLine& line : *lines) ids.push_back(line.bake.id);
    const auto count = daybook().count(Kind::bake, query);
    EXPECT_EQ(static_cast<std::size_t>(count.value_or(-1)), ids.size());
    return ids;
  };
  EXPECT_THAT(found("pears"), ElementsAre("1"));
  EXPECT_THAT(found("skin perry"), ElementsAre("1"));
  EXPECT_THAT(found("October 2026"), ElementsAre("1"));
  EXPECT_THAT(found("2026-10"), ElementsAre("1"));
  EXPECT_THAT(found("perry September"), IsEmpty());
  ASSERT_THAT(daybook().remove(Kind::loaf, "l", 0, noon), Holds());
  EXPECT_THAT(found("pears"), IsEmpty());
}

// A list that breaks off must not hold its old view of the file: then no log could be brought in.
TEST_F(DaybookFile, AListThatFailsHoldsNothingOpen) {
  kept(a_bake("a"));
  kept(a_bake("b"));
  asked("UPDATE bake SET tags = '[oops]' WHERE id = 'a'");
  EXPECT_THAT(daybook().list<Bake>(), FailsWith(ErrorCode::bad_input));
  kept(a_bake("c"));
  EXPECT_EQ(asked("PRAGMA wal_checkpoint(TRUNCATE)"), "0") << "somebody is still reading";
}

TEST_F(DaybookFile, AListOfBakesCountsTheirReadings) {
  kept(a_bake("b"));
  kept(a_reading("1", "b"));
  ReadingRecord later = a_reading("2", "b");
  later.at = noon + 3600;
  kept(later);
  ASSERT_THAT(daybook().remove(Kind::reading, "1", 0, noon), Holds());
  const auto lines = daybook().list_bakes();
  ASSERT_THAT(lines, Holds());
  EXPECT_EQ(lines->front().readings, 1);
  EXPECT_EQ(lines->front().last_reading, noon + 3600);
  EXPECT_TRUE(lines->front().bake.toml.empty());
}

TEST(Moments, AreReadAndWrittenInUtc) {
  EXPECT_EQ(noon.text(), "2026-11-29T12:00:00Z");
  EXPECT_EQ(time::parse_instant("2026-11-29T13:00+01:00"), noon);
  EXPECT_EQ(time::parse_instant("2026-11-29T08:30:00.25-0330"), noon);
  EXPECT_EQ(time::Instant{-1}.text(), "1969-12-31T23:59:59Z");
  for (const char* wrong : {"",
                            "2026-11-29",
                            "2026-02-30T00:00Z",
                            "2026-11-29T24:00Z",
                            "2026-11-29T12:00",
                            "2026-11-29T12:00:00Zx",
                            "1899-01-01T00:00Z"})
    EXPECT_EQ(time::parse_instant(wrong), std::nullopt) << wrong;
}

}  // namespace

}  // namespace barm::storage::test

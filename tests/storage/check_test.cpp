// What `barm daybook check` finds in a file that another program has written.
#include <gmock/gmock.h>
#include <sqlite3.h>

#include <string>

#include "../support/matchers.h"
#include "daybooks.h"
#include "storage/archive.h"

namespace barm::storage::test {

namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

class Check : public testing::Test {
 protected:
  void SetUp() override {
    auto daybook = Daybook::open(file(), {.create = true});
    ASSERT_THAT(daybook, Holds());
    ASSERT_THAT(daybook->save(a_bake("b"), noon), Holds());
    ASSERT_THAT(daybook->save(a_reading("r", "b"), noon), Holds());
  }

  [[nodiscard]] std::string file() const { return folder_ / "daybook.barm"; }

  // As another program would, which keeps none of our rules.
  void written_by_another(const std::string& sql) {
    sqlite3* raw = nullptr;
    ASSERT_EQ(sqlite3_open(file().c_str(), &raw), SQLITE_OK);
    EXPECT_EQ(sqlite3_exec(raw, sql.c_str(), nullptr, nullptr, nullptr), SQLITE_OK)
        << sqlite3_errmsg(raw);
    sqlite3_close(raw);
  }

  std::vector<std::string> faults() {
    auto daybook = Daybook::open(file());
    EXPECT_THAT(daybook, Holds());
    return daybook->check().value();
  }

  std::vector<std::string> odd() {
    auto daybook = Daybook::open(file());
    EXPECT_THAT(daybook, Holds());
    return daybook->odd_records().value();
  }

  const Folder folder_;
};

TEST_F(Check, FindsNothingInAWholeDaybook) {
  EXPECT_THAT(faults(), IsEmpty());
  EXPECT_THAT(odd(), IsEmpty());
  written_by_another("CREATE TABLE of_mine (x)");
  EXPECT_THAT(faults(), IsEmpty()) << "what somebody added is no fault";
}

TEST_F(Check, FindsAMissingTableColumnAndIndex) {
  written_by_another("DROP TABLE scale; DROP INDEX reading_of_bake");
  EXPECT_THAT(faults(), Contains("the table scale is missing"));
  EXPECT_THAT(faults(), Contains("the index reading_of_bake is missing"));
  written_by_another("ALTER TABLE culture DROP COLUMN left_out");
  EXPECT_THAT(faults(), Contains("the column left_out of culture is missing"));
  auto daybook = Daybook::open(file());
  const auto refused = daybook->list<Scale>();
  ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(refused.error().message, HasSubstr("is damaged (no such table: scale)"));
}

TEST_F(Check, FindsRecordsThatCouldNotBeSavedAndDoesNotExportThem) {
  written_by_another("UPDATE bake SET title = CAST(x'6DE96C69' AS TEXT)");
  EXPECT_THAT(odd(), Contains(HasSubstr("bake b: title  no text")));
  auto daybook = Daybook::open(file());
  const auto refused = export_to(*daybook, folder_ / "out.zip", noon);
  ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(refused.error().message, HasSubstr("bake b: title"));
  EXPECT_FALSE(std::filesystem::exists(folder_ / "out.zip"));
  written_by_another("UPDATE bake SET title = 'x', tags = '[1]'");
  EXPECT_THAT(odd(), Contains(HasSubstr("is damaged")));
}

}  // namespace

}  // namespace barm::storage::test

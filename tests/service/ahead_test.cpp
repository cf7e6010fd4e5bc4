// A device whose clock is ahead of the machine's.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "../support/folder.h"
#include "../support/matchers.h"
#include "service/daybook/daybook.h"
#include "service/noon.h"

namespace barm::service {

namespace {

using barm::test::saturday_noon;
using nlohmann::json;
using testing::HasSubstr;

TEST(Ahead, AReadingFromTheFutureIsRefusedWithBothClocks) {
  const barm::test::Folder folder;
  auto daybook = storage::Daybook::open(folder / "daybook.barm", {.create = true});
  ASSERT_THAT(daybook, barm::test::Holds());
  const Now now = saturday_noon();
  ASSERT_THAT(save_record(*daybook, storage::Kind::bake, {{"id", "b1"}, {"state", "draft"}}, now),
              barm::test::Holds());
  const auto read_at = [&](std::int64_t ahead_s) {
    return save_record(*daybook,
                       storage::Kind::reading,
                       {{"bake", "b1"}, {"at", (now.at + ahead_s).text()}, {"height_mm", 52}},
                       now);
  };
  const auto refused = read_at(121);
  ASSERT_THAT(refused, barm::test::FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(refused.error().where, "at");
  EXPECT_THAT(refused.error().message, HasSubstr("2026-11-28T11:02:01Z is ahead"));
  EXPECT_THAT(refused.error().message, HasSubstr("2026-11-28T11:00:00Z"));
  EXPECT_THAT(read_at(120), barm::test::Holds());
  const auto many = save_records(*daybook,
                                 storage::Kind::reading,
                                 json::array({{{"bake", "b1"}, {"at", now.at.text()}},
                                              {{"bake", "b1"}, {"at", (now.at + 7200).text()}}}),
                                 now);
  ASSERT_THAT(many, barm::test::FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(many.error().where, "readings[1].at");
}

}  // namespace
}  // namespace barm::service

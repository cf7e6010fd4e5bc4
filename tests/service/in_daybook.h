#pragma once
// A test beside an empty daybook of its own, at noon of a Saturday.
#include <gmock/gmock.h>

#include <optional>

#include "../support/folder.h"
#include "../support/matchers.h"
#include "service/noon.h"
#include "storage/daybook.h"

namespace barm::test {

class InDaybook : public testing::Test {
 protected:
  void SetUp() override {
    auto opened = storage::Daybook::open(folder_ / "daybook.barm", {.create = true});
    ASSERT_THAT(opened, Holds());
    daybook_.emplace(std::move(*opened));
  }

  void TearDown() override { daybook_.reset(); }

  storage::Daybook& daybook() { return *daybook_; }

  /// Noted as done at the time it happened.
  void mark(const std::string& bake,
            const std::string& what,
            std::int64_t stage,
            time::Instant at) {
    storage::Mark done;
    done.bake = bake;
    done.what = what;
    done.stage = stage;
    done.at = at;
    EXPECT_THAT(daybook().save(done, at), Holds());
  }

  Folder folder_;
  std::optional<storage::Daybook> daybook_;
  service::Now now_ = saturday_noon();
};

}  // namespace barm::test

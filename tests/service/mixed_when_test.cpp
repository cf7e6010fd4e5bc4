// Of two moments of mixing the one typed last holds, and both places then say it.
#include <gmock/gmock.h>

#include "../support/folder.h"
#include "../support/matchers.h"
#include "formula/read.h"
#include "service/answers_digest.h"
#include "service/bake/mixed_line.h"
#include "service/daybook/daybook.h"
#include "service/daybook/kept_bake.h"
#include "service/noon.h"

namespace barm::service {

namespace {

using barm::test::Folder;
using barm::test::Holds;
using barm::test::saturday_noon;
using testing::HasSubstr;

constexpr const char* at_seven = R"(name = "Plain"   # a remark
mixed = 2026-11-28T07:00:00   # as planned
flour = "1 kg"
[bowl]
"white bread flour" = "100 %"
water = "70 %"
"stiff ripe levain" = "20 %"
)";

class MixedWhen : public testing::Test {
 protected:
  void SetUp() override {
    auto opened = storage::Daybook::open(folder_ / "d.barm", {.create = true});
    ASSERT_THAT(opened, Holds());
    daybook_.emplace(std::move(*opened));
  }

  void TearDown() override { daybook_.reset(); }

  storage::Bake save(storage::Bake bake) {
    const auto saved = save_bake(*daybook_, std::move(bake), now_);
    EXPECT_THAT(saved, Holds());
    return saved ? *saved : storage::Bake{};
  }

  storage::Bake new_one(const std::string& state, std::optional<time::Instant> mixed) {
    storage::Bake bake;
    bake.id = "b";
    bake.state = state;
    bake.toml = at_seven;
    bake.mixed_at = mixed;
    return save(bake);
  }

  [[nodiscard]] std::string in_file(const storage::Bake& bake) const {
    const auto mixed = formula::parse_bake(bake.toml, "bake")->mixed_at;
    return mixed ? mixed->text() : "";
  }

  [[nodiscard]] std::optional<time::Instant> at(const std::string& local) const {
    return moment_of(local, now_.zone);
  }

  Folder folder_;
  std::optional<storage::Daybook> daybook_;
  Now now_ = saturday_noon();
};

TEST_F(MixedWhen, TheRecordsMomentIsWrittenIntoTheFile) {
  const storage::Bake bake = new_one("live", at("2026-11-28T07:40"));
  EXPECT_EQ(bake.mixed_at, at("2026-11-28T07:40"));
  EXPECT_EQ(in_file(bake), "2026-11-28T07:40");
  EXPECT_THAT(bake.toml, HasSubstr("# as planned"));
  EXPECT_THAT(bake.toml, HasSubstr("# a remark"));
}

TEST_F(MixedWhen, SavingAnythingElseLeavesItAsItIs) {
  storage::Bake bake = new_one("live", at("2026-11-28T07:40"));
  bake.note = "a note";
  bake = save(bake);
  EXPECT_EQ(bake.mixed_at, at("2026-11-28T07:40"));
  EXPECT_EQ(in_file(bake), "2026-11-28T07:40");
}

TEST_F(MixedWhen, TheFilesMomentHoldsWhenItWasTypedLast) {
  storage::Bake bake = new_one("live", at("2026-11-28T07:40"));
  bake.toml = mixed_at(bake.toml, *time::parse_local("2026-11-28T08:10"));
  bake = save(bake);
  EXPECT_EQ(bake.mixed_at, at("2026-11-28T08:10"));
}

TEST_F(MixedWhen, ABakeWithoutAMomentIsGivenItsOwn) {
  storage::Bake bake;
  bake.state = "live";
  bake.title = "Plain";
  bake.toml = std::string(at_seven).replace(0, std::string(at_seven).find("flour"), "");
  bake = save(bake);
  EXPECT_EQ(bake.mixed_at, now_.at);
  EXPECT_EQ(in_file(bake), now_.zone.local(now_.at).text());
}

TEST(KeptReadings, ANumberThatCannotBeLosesItselfAlone) {
  storage::ReadingRecord reading;
  reading.at = time::Instant{3600 * 3};
  reading.height_mm = 52;
  reading.bulk_C = 90;
  const auto readings = readings_of({reading}, time::Instant{0});
  ASSERT_EQ(readings.rows.size(), 1U);
  EXPECT_NEAR(readings.rows[0].height->in(millimetre), 52, 1e-9);
  EXPECT_FALSE(readings.rows[0].bulk);
  ASSERT_EQ(readings.left_out.size(), 1U);
  EXPECT_THAT(readings.left_out[0].message, HasSubstr("90"));
}

TEST(Kept, WhatIsWorkedOutIsKeptUnderTheLarderAndTheCode) {
  KeptBake bake;
  EXPECT_THAT(made_from(bake), HasSubstr(std::string(answers_digest())));
  EXPECT_EQ(answers_digest().size(), 16U);
}

}  // namespace
}  // namespace barm::service

// What is known of a dough comes about in two places, and both say the same of it.
#include "service/bake/batch.h"

#include <gmock/gmock.h>

#include "formula/read.h"
#include "service/daybook/kept_bake.h"
#include "support/matchers.h"

namespace barm::service {
namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using testing::IsEmpty;
using testing::SizeIs;

constexpr time::Instant mixed{1795849200};  // 2026-11-28T07:00:00Z

formula::Bake a_bake() {
  auto bake = formula::parse_bake(
                  "mixed = 2026-11-28T07:00:00\nflour = \"2 kg\"\n[bowl]\n\"white bread flour\" = "
                  "\"100 %\"\nsalt = \"2 %\"\n\"stiff ripe levain\" = \"20 %\"\nwater = \"70 %\"\n"
                  "[[stage]]\ndo = \"bulk\"\nuntil = \"doubled\"\n[[stage]]\ndo = \"divide\"\n",
                  "x.toml")
                  .value();
  bake.clock.emplace(mixed, time::Zone::fixed(0));
  return bake;
}

KeptBake kept(const std::string& state) {
  KeptBake out;
  out.record.state = state;
  out.record.mixed_at = mixed;
  storage::ReadingRecord look;
  look.at = mixed + 3 * 3600;
  look.height_mm = 52;
  out.readings.push_back(look);
  storage::Mark divided;
  divided.what = "divide";
  divided.stage = 1;
  divided.at = mixed + 5 * 3600;
  out.marks.push_back(divided);
  return out;
}

const Now six_hours_later{mixed + 6 * 3600, time::Zone::fixed(0)};

TEST(Batch, OfADoughUnderWayKnowsWhatWasReadAndTickedOffAndItsAge) {
  const Batch batch = batch_of(kept("live"), a_bake(), Begun(), six_hours_later);
  ASSERT_THAT(batch.readings.rows, SizeIs(1));
  EXPECT_EQ(batch.readings.rows[0].at, 3.0 * hour);
  ASSERT_THAT(batch.ticked, SizeIs(1));
  EXPECT_EQ(batch.ticked[0].stage, 1U);
  EXPECT_EQ(batch.ticked[0].at, 5.0 * hour);
  EXPECT_EQ(batch.now, 6.0 * hour);
  EXPECT_EQ(batch.as_it_stands({}).done.size(), 1U);
  EXPECT_EQ(batch.as_it_stands({}).prior, &batch.start.prior);
}

TEST(Batch, ThatNobodyWorksAtHasNoAgeAndNothingTickedOff) {
  for (const char* state : {"planned", "finished", "given_up"}) {
    const Batch batch = batch_of(kept(state), a_bake(), Begun(), six_hours_later);
    EXPECT_FALSE(batch.now) << state;
    EXPECT_THAT(batch.ticked, IsEmpty()) << state;
  }
}

TEST(Batch, OfAFileAndOfTheDaybookHoldsTheSameReadings) {
  const Batch stored = batch_of(kept("live"), a_bake(), Begun(), six_hours_later);
  const auto typed = batch_of(a_bake(), {.typed = {"2026-11-28T10:00 52 mm"}});
  ASSERT_THAT(typed, Holds());
  ASSERT_THAT(typed->readings.rows, SizeIs(1));
  EXPECT_EQ(typed->readings.rows[0].at, stored.readings.rows[0].at);
  EXPECT_EQ(typed->readings.rows[0].height, stored.readings.rows[0].height);
  EXPECT_EQ(typed->clock.instant(Time{}), stored.clock.instant(Time{}));
  EXPECT_EQ(typed->start.belief.mean, stored.start.belief.mean);
}

TEST(Batch, OfAFileSaysWhatIsWrongBesideIt) {
  EXPECT_THAT(batch_of(a_bake(), {.typed = {"52 mm"}}), FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(batch_of(a_bake(), {.zone = "Marsh/Sluice"}), FailsWith(ErrorCode::not_found));
  EXPECT_THAT(batch_of(a_bake(), {.culture = "/no/such/culture.toml"}),
              FailsWith(ErrorCode::not_found));
}

}  // namespace
}  // namespace barm::service

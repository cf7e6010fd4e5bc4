#include "service/daybook/daybook.h"

#include <gmock/gmock.h>

#include <cstdlib>
#include <nlohmann/json.hpp>

#include "../support/folder.h"
#include "../support/matchers.h"
#include "service/daybook/demo.h"
#include "service/daybook/view.h"
#include "service/in_daybook.h"
#include "support/in_central_europe.h"

namespace barm::service {

namespace {

using barm::test::FailsWith;
using barm::test::Holds;
using barm::test::InCentralEurope;
using barm::test::saturday_noon;
using nlohmann::json;
using storage::Daybook;
using storage::Kind;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;
using testing::StartsWith;

const char* const plain_toml = R"(name = "Plain"
mixed = 2026-11-28T07:00:00
flour = "1 kg"

[bowl]
"white bread flour" = "100 %"
water = "70 %"
salt = "2 %"
levain = "20 %"

[levain]
starter = "stiff ripe levain"
flour = "white bread flour"
temperature = "26 C"
since_feeding = "5 h"

[[stage]]
do = "mix"

[[stage]]
do = "bulk"
temperature = "24 C"
until = "doubled"

[[stage]]
do = "fold"
after = "1 h"

[[stage]]
do = "divide"

[[stage]]
do = "proof"
temperature = "24 C"
for = "2 h"
)";

class ServiceDaybook : public barm::test::InDaybook {
 protected:
  storage::Bake kept(const std::string& id,
                     const std::string& state,
                     std::optional<time::Instant> mixed) {
    storage::Bake bake;
    bake.id = id;
    bake.state = state;
    bake.toml = plain_toml;
    bake.mixed_at = mixed;
    auto saved = save_bake(daybook(), bake, now_);
    EXPECT_THAT(saved, Holds());
    return saved ? *saved : storage::Bake{};
  }

  TodayAnswer todays(const Now& now) {
    auto answer = today(daybook(), now);
    EXPECT_THAT(answer, Holds());
    return answer ? *answer : TodayAnswer{};
  }
};

TEST(Now, SaysAMomentAsTheWallShowsIt) {
  const InCentralEurope here;
  EXPECT_EQ(said(*time::parse_instant("2026-10-25T00:31Z"), time::Zone()), "Sun 02:30");
  EXPECT_EQ(said(*time::parse_instant("2026-10-25T01:31Z"), time::Zone()), "Sun 02:30");
  EXPECT_EQ(said(*time::parse_instant("2026-10-25T04:53Z"), time::Zone()), "Sun 06:00");
}

TEST_F(ServiceDaybook, ABakeTakesTitleAndTimeFromItsFile) {
  const storage::Bake bake = kept("b", "planned", std::nullopt);
  EXPECT_EQ(bake.title, "Plain");
  EXPECT_EQ(bake.mixed_at, moment_of("2026-11-28T07:00", now_.zone));
  const auto read = stored_bake(daybook(), "b", now_);
  ASSERT_THAT(read, Holds());
  EXPECT_EQ(read->mixed_at.value().text(), "2026-11-28T07:00");
}

TEST_F(ServiceDaybook, ALiveDoughKeepsItsTrueTimeOfMixing) {
  const time::Instant mixed = *moment_of("2026-11-28T07:20", now_.zone);
  EXPECT_EQ(kept("b", "live", mixed).mixed_at, mixed);
  EXPECT_EQ(stored_bake(daybook(), "b", now_)->mixed_at.value().text(), "2026-11-28T07:20");
}

TEST_F(ServiceDaybook, AFileThatIsNoneIsRefusedByItsLineUnlessItIsADraft) {
  storage::Bake bake;
  bake.toml = "name = \"x\"\n[bowl]\nmeade = \"2 %\"\n";
  const auto refused = save_bake(daybook(), bake, now_);
  ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(refused.error().where, StartsWith("bake:3:"));
  bake.state = "draft";
  EXPECT_THAT(save_bake(daybook(), bake, now_), Holds());
}

TEST_F(ServiceDaybook, WhatWasPouredIsInTheBowl) {
  kept("b", "live", now_.at);
  storage::Mark poured;
  poured.bake = "b";
  poured.what = "weigh";
  poured.of = "water";
  poured.poured_g = 733;
  poured.at = now_.at;
  ASSERT_THAT(daybook().save(poured, now_.at), Holds());
  const auto bake = stored_bake(daybook(), "b", now_);
  ASSERT_THAT(bake, Holds());
  const auto answer = bowl(*bake);
  ASSERT_THAT(answer, Holds());
  EXPECT_NEAR(answer->bowl.lines[*bake->find("water")].actual.in(gram), 733, 1e-9);
  EXPECT_TRUE(answer->mend.needed);
}

TEST_F(ServiceDaybook, RecordsGoInAndOutAsJson) {
  kept("b", "live", now_.at);
  const json reading = {
      {"id", "phone-1"}, {"bake", "b"}, {"at", "2026-11-28T11:00:00Z"}, {"height_mm", 84}};
  const auto saved = save_record(daybook(), Kind::reading, reading, now_);
  ASSERT_THAT(saved, Holds());
  EXPECT_EQ((*saved)["revision"], 1);
  EXPECT_EQ(*save_record(daybook(), Kind::reading, reading, now_), *saved) << "sent again";
  // What is left out stays.
  const auto changed = save_record(
      daybook(), Kind::reading, {{"id", "phone-1"}, {"revision", 1}, {"ph", 4.5}}, now_);
  ASSERT_THAT(changed, Holds());
  EXPECT_EQ((*changed)["height_mm"], 84);
  EXPECT_EQ((*changed)["ph"], 4.5);
  // A change without its revision never goes over another's.
  EXPECT_THAT(save_record(daybook(), Kind::reading, {{"id", "phone-1"}, {"ph", 4.4}}, now_),
              FailsWith(ErrorCode::conflict));
  EXPECT_THAT(save_record(daybook(), Kind::reading, json::array(), now_),
              FailsWith(ErrorCode::bad_input));
  storage::Query query;
  query.owner = "b";
  const auto list = list_records(daybook(), Kind::reading, query);
  ASSERT_THAT(list, Holds());
  EXPECT_EQ((*list)["schema"], "barm.readings/1");
  EXPECT_EQ((*list)["total"], 1);
  EXPECT_EQ((*list)["readings"][0], *changed);
}

TEST_F(ServiceDaybook, ManyReadingsAreKeptAllOrNone) {
  kept("b", "live", now_.at);
  json list = json::array();
  for (int i = 0; i < 3; ++i)
    list.push_back(
        {{"id", std::to_string(i)}, {"bake", "b"}, {"at", "2026-11-28T11:00Z"}, {"ph", 5}});
  list[2]["ph"] = "sour";
  const auto refused = save_records(daybook(), Kind::reading, list, now_);
  ASSERT_THAT(refused, FailsWith(ErrorCode::bad_input));
  EXPECT_EQ(refused.error().where, "readings[2].ph");
  EXPECT_EQ(*daybook().count(Kind::reading), 0);
  list[2]["ph"] = 4.5;
  EXPECT_THAT(save_records(daybook(), Kind::reading, list, now_), Holds());
  EXPECT_EQ(*daybook().count(Kind::reading), 3);
}

TEST_F(ServiceDaybook, EveryKindHasAPluralThatLeadsBack) {
  for (const char* kind : {"bake",
                           "culture",
                           "feeding",
                           "bottle",
                           "reading",
                           "mark",
                           "photo",
                           "loaf",
                           "scale",
                           "remark",
                           "setting",
                           "test_bake",
                           "test_member",
                           "equipment"})
    EXPECT_EQ(kind_of_plural(plural(*storage::kind_of(kind))), storage::kind_of(kind)) << kind;
  EXPECT_EQ(kind_of_plural("tables"), std::nullopt);
}

TEST_F(ServiceDaybook, TodayFollowsADoughFromItsLevainToTheOven) {
  const time::Instant mixed = *moment_of("2026-11-28T07:00", now_.zone);
  storage::Bake bake = kept("b", "planned", mixed);

  // The evening before: its levain is to be fed five hours before mixing.
  TodayAnswer answer = todays({mixed - 8 * 3600, now_.zone});
  ASSERT_THAT(answer.doughs, SizeIs(1));
  EXPECT_THAT(answer.doughs[0].next, StartsWith("feed its levain: 50 g stiff ripe levain, 100 g"));
  EXPECT_EQ(answer.doughs[0].next_at, mixed - 5 * 3600);
  EXPECT_THAT(answer.feed_tonight, ElementsAre(HasSubstr("for Plain: 50 g stiff ripe levain")));

  answer = todays({mixed - 3600, now_.zone});
  EXPECT_EQ(answer.doughs[0].next, "mix");
  EXPECT_EQ(answer.doughs[0].next_at, mixed);

  bake.state = "live";
  ASSERT_THAT(save_bake(daybook(), bake, {mixed, now_.zone}), Holds());
  answer = todays({mixed + 1800, now_.zone});
  EXPECT_EQ(answer.doughs[0].next, "fold");
  EXPECT_EQ(answer.doughs[0].next_at, mixed + 3600);
  answer = todays({mixed + 3660, now_.zone});
  EXPECT_THAT(answer.doughs[0].head, StartsWith("fold now · into the oven about "));
  EXPECT_FALSE(answer.doughs[0].late);

  // The fold is marked: then it is the end of the bulk that counts.
  mark("b", "fold", 2, mixed + 3600);
  answer = todays({mixed + 3700, now_.zone});
  EXPECT_EQ(answer.doughs[0].next, "divide");
  EXPECT_EQ(answer.doughs[0].next_at, answer.doughs[0].ready_p50);
  EXPECT_FALSE(answer.doughs[0].late);
  EXPECT_LT(answer.doughs[0].ready_p10, answer.doughs[0].ready_p50);
  EXPECT_LT(answer.doughs[0].ready_p50, answer.doughs[0].ready_p90);

  constexpr int half_a_quarter = 8 * 60;  // hours are said to the quarter
  answer = todays({*answer.doughs[0].ready_p90 + half_a_quarter, now_.zone});
  EXPECT_TRUE(answer.doughs[0].late);
  EXPECT_THAT(
      answer.doughs[0].head,
      AllOf(StartsWith("divide: overdue since " + said(*answer.doughs[0].ready_p90, now_.zone)),
            HasSubstr(" · into the oven about "),
            HasSubstr(" after that")));

  const time::Instant divided = *answer.doughs[0].ready_p50;
  mark("b", "divide", 3, divided);
  answer = todays({divided + 60, now_.zone});
  EXPECT_EQ(answer.doughs[0].next, "into the oven");
  EXPECT_EQ(answer.doughs[0].next_at, divided + 2 * 3600);

  bake = *daybook().get<storage::Bake>("b");
  bake.state = "finished";
  ASSERT_THAT(save_bake(daybook(), bake, now_), Holds());
  EXPECT_THAT(todays(now_).doughs, IsEmpty());
}

TEST_F(ServiceDaybook, TodayWeighsTheNextDaysOrdinaryBreadsTogether) {
  kept("one", "planned", std::nullopt);
  kept("two", "planned", std::nullopt);
  for (const char* id : {"one", "two"}) {
    storage::Bake bake = *daybook().get<storage::Bake>(id);
    bake.toml.replace(bake.toml.find("2026-11-28T07:00:00"), 19, "2026-11-29T06:00:00");
    ASSERT_THAT(save_bake(daybook(), bake, now_), Holds());
  }
  const TodayAnswer answer = todays(now_);
  EXPECT_EQ(answer.weigh_day, "2026-11-29");
  EXPECT_THAT(answer.ordinary, ElementsAre("Plain", "Plain"));
  const auto water =
      std::find_if(answer.weigh.begin(), answer.weigh.end(), [](const WeighToday& line) {
        return line.ingredient == "water";
      });
  ASSERT_NE(water, answer.weigh.end());
  EXPECT_NEAR(water->mass.in(gram), 1400, 1e-9);
}

// An evening and the hours after it, with a clock that is put back in the night between them.
TEST_F(ServiceDaybook, TodaySaysTheSameTimeWheneverItIsAsked) {
  const InCentralEurope here;
  const time::Instant mixed = *time::parse_instant("2026-10-24T20:00Z");
  kept("b", "live", mixed);
  const std::string ready = todays({mixed, time::Zone()}).doughs[0].ready;
  for (const int minutes : {7, 118, 125, 271})
    EXPECT_EQ(todays({mixed + 60 * minutes, time::Zone()}).doughs[0].ready, ready) << minutes;
  const time::Instant middle = *todays({mixed, time::Zone()}).doughs[0].ready_p50;
  EXPECT_GT(middle, *time::parse_instant("2026-10-25T01:00Z"));
  EXPECT_THAT(ready, StartsWith(said(middle, time::Zone())));
}

TEST_F(ServiceDaybook, TodayNamesABakeWhoseFileCannotBeRead) {
  storage::Bake bake;
  bake.id = "b";
  bake.title = "Broken";
  bake.state = "live";
  bake.mixed_at = now_.at;
  bake.toml = "[bowl]\nmeade = \"1 %\"\n";
  ASSERT_THAT(daybook().save(bake, now_.at), Holds());
  const TodayAnswer answer = todays(now_);
  ASSERT_THAT(answer.doughs, SizeIs(1));
  EXPECT_THAT(answer.doughs[0].next, StartsWith("mend its file: bake:2:"));
}

TEST_F(ServiceDaybook, ALevainSaysWhatPlannedDoughsTakeOfIt) {
  storage::Culture sluice;
  sluice.id = "sluice";
  sluice.title = "Sluice";
  sluice.starter = "stiff ripe levain";
  sluice.flour = "white bread flour";
  sluice.ripe_weight_g = 120;
  sluice.feed_every_h = 12;
  ASSERT_THAT(daybook().save(sluice, now_.at), Holds());
  const time::Instant mixed = *moment_of("2026-11-29T07:00", now_.zone);
  storage::Bake bake = kept("b", "planned", mixed);
  EXPECT_THAT(todays(now_).levains, ElementsAre(testing::Field(&LevainToday::wanted, "")));
  bake.culture = "sluice";
  ASSERT_THAT(daybook().save(bake, now_.at), Holds());
  const TodayAnswer answer = todays(now_);
  EXPECT_THAT(
      answer.levains,
      ElementsAre(testing::Field(&LevainToday::wanted, "50 g Sun 02:00; a feeding makes 120 g")));
  EXPECT_THAT(answer.feed_tonight, Contains(HasSubstr("ripe for doughs: 50 g Sun 02:00")));
}

TEST_F(ServiceDaybook, TheDemonstrationShowsSomethingOfEverything) {
  ASSERT_THAT(fill_with_demo(daybook(), now_), Holds());
  EXPECT_THAT(fill_with_demo(daybook(), now_), FailsWith(ErrorCode::bad_input));
  const TodayAnswer answer = todays(now_);
  EXPECT_TRUE(answer.invented);
  EXPECT_THAT(answer.doughs, SizeIs(5));
  int late = 0;
  for (const DoughToday& dough : answer.doughs) late += dough.late ? 1 : 0;
  EXPECT_EQ(late, 1);
  EXPECT_THAT(answer.levains, SizeIs(2));
  EXPECT_THAT(answer.ordinary, testing::UnorderedElementsAre("Plain marsh loaf", "Marsh tin loaf"));
  EXPECT_THAT(answer.buy, Contains(StartsWith("cold-brewed coffee:")));
  EXPECT_THAT(answer.feed_tonight, testing::Not(IsEmpty()));
  EXPECT_THAT(to_json(answer)["schema"], "barm.today/1");
  EXPECT_THAT(*daybook().check(), IsEmpty());
  for (const Kind kind : {Kind::culture,
                          Kind::feeding,
                          Kind::bottle,
                          Kind::reading,
                          Kind::mark,
                          Kind::loaf,
                          Kind::photo,
                          Kind::scale,
                          Kind::remark,
                          Kind::test_bake,
                          Kind::test_member,
                          Kind::equipment})
    EXPECT_GT(*daybook().count(kind), 0) << storage::name(kind);
}

TEST_F(ServiceDaybook, TheDemonstrationIsMadeForTheNextDayAtAnyHour) {
  const InCentralEurope here;
  const std::pair<const char*, const char*> hours[] = {{"2026-10-24T22:05Z", "2026-10-26"},
                                                       {"2026-10-25T01:30Z", "2026-10-26"},
                                                       {"2026-03-28T22:58Z", "2026-03-29"},
                                                       {"2026-11-28T22:58Z", "2026-11-29"}};
  for (const auto& [hour, tomorrow] : hours) {
    const barm::test::Folder folder;
    auto demo = Daybook::open(folder / "demo.barm", {.create = true});
    ASSERT_THAT(demo, Holds());
    const Now now{*time::parse_instant(hour), time::Zone()};
    ASSERT_THAT(fill_with_demo(*demo, now), Holds());
    const auto answer = today(*demo, now);
    ASSERT_THAT(answer, Holds());
    EXPECT_EQ(answer->weigh_day, tomorrow) << hour;
    EXPECT_THAT(answer->ordinary, SizeIs(2)) << hour;
    EXPECT_THAT(answer->doughs, SizeIs(5)) << hour;
    // What is planned is planned to the quarter of an hour, as bakers do.
    for (const DoughToday& dough : answer->doughs) {
      if (dough.state == "planned" && dough.mixed_at) {
        EXPECT_EQ(dough.mixed_at->seconds % time::seconds_a_quarter, 0) << hour << dough.title;
      }
    }
    EXPECT_THAT(answer->feed_tonight, testing::Not(IsEmpty())) << hour;
  }
}

TEST_F(ServiceDaybook, TheDemonstrationHasAPictureOfAFinishedLoaf) {
  ASSERT_THAT(fill_with_demo(daybook(), now_), Holds());
  const auto photos = daybook().list<storage::Photo>({});
  ASSERT_THAT(photos, Holds());
  ASSERT_THAT(*photos, SizeIs(1));
  const storage::Photo& photo = photos->front();
  EXPECT_THAT(photo.caption, HasSubstr("invented"));
  EXPECT_LT(photo.taken_at, now_.at);
  const auto loaf = daybook().get<storage::Loaf>(*photo.loaf);
  ASSERT_THAT(loaf, Holds());
  EXPECT_EQ(daybook().get<storage::Bake>(loaf->bake)->state, "finished");
  EXPECT_GT(photo.width_px, photo.height_px);
  EXPECT_THAT(*daybook().picture(photo.id), StartsWith("\xFF\xD8\xFF"));
  EXPECT_LT(daybook().thumbnail(photo.id)->size(), daybook().picture(photo.id)->size());
  // It is seen in the list of bakes.
  storage::Query finished;
  finished.state = "finished";
  const auto bakes = daybook().list_bakes(finished);
  EXPECT_TRUE(std::any_of(bakes->begin(), bakes->end(), [&](const storage::BakeLine& line) {
    return line.photo == photo.id;
  }));
}

TEST_F(ServiceDaybook, FindsABakeByIdOrByWordsOfItsTitle) {
  ASSERT_THAT(fill_with_demo(daybook(), now_), Holds());
  EXPECT_EQ(find_bake(daybook(), "perry-done")->id, "perry-done");
  EXPECT_EQ(find_bake(daybook(), "mead LOAF")->id, "mead-live");
  EXPECT_THAT(find_bake(daybook(), "nothing"), FailsWith(ErrorCode::not_found));
  const auto several = find_bake(daybook(), "plain");
  ASSERT_THAT(several, FailsWith(ErrorCode::bad_input));
  EXPECT_THAT(several.error().message, HasSubstr("plain-done"));
  const auto view = view_bake(daybook(), "perry-done", now_);
  ASSERT_THAT(view, Holds());
  EXPECT_THAT(view->readings, SizeIs(5));
  EXPECT_THAT(view->loaves, SizeIs(1));
}

}  // namespace

}  // namespace barm::service

#include "service/day/day.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "service/day/drawn.h"
#include "service/day/oven.h"
#include "service/day/steps.h"
#include "service/oven/oven.h"

namespace barm::service {

namespace {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const time::Zone winter = time::Zone::fixed(3600);

DayFile saturday() {
  return with_ovens(read_day(BARM_ROOT "/examples/saltmarsh-saturday.toml", winter).value())
      .value();
}

DayRequest quick() {
  DayRequest out;
  out.draws = 60;
  out.fresh_draws = 200;
  return out;
}

/// What is wrong with the example when one text in it is replaced by another.
std::string wrong_with(const std::string& from, const std::string& to) {
  std::ifstream file(BARM_ROOT "/examples/saltmarsh-saturday.toml");
  std::stringstream all;
  all << file.rdbuf();
  std::string text = all.str();
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  text.replace(at, from.size(), to);
  const auto folder = std::filesystem::path(testing::TempDir()) / "day";
  std::filesystem::create_directories(folder);
  for (const char* bake : {"mead", "stout", "perry", "cold-coffee"}) {
    const std::string name = std::string(bake) + "-loaf.toml";
    std::filesystem::copy_file(std::filesystem::path(BARM_ROOT "/examples") / name,
                               folder / name,
                               std::filesystem::copy_options::overwrite_existing);
  }
  const auto path = folder / "wrong.toml";
  std::ofstream(path) << text;
  const auto read = read_day(path.string(), winter);
  return read ? "nothing" : read.error().text().substr(read.error().text().find("wrong.toml"));
}

TEST(AFileOfTheDay, SaysWhereWhatAndWhatWouldBeRight) {
  EXPECT_THAT(wrong_with("hands = 2", "hands = 0"),
              AllOf(StartsWith("wrong.toml:7:"), HasSubstr("from 1 to 500")));
  EXPECT_THAT(wrong_with("mixers", "mixer"), HasSubstr("mixers"));
  EXPECT_THAT(wrong_with("22:00 to 04:00", "22:00"), HasSubstr("write \"21:30 to 04:00\""));
  EXPECT_THAT(wrong_with("8 h to 16 h", "16 h to 8 h"), HasSubstr("ends after it begins"));
  EXPECT_THAT(wrong_with("2026-11-28T08:00:00", "2026-11-28T08:02:00"), HasSubstr("five minutes"));
  EXPECT_THAT(wrong_with("2026-11-28T08:00:00", "2026-11-27T04:00:00"), HasSubstr("not after"));
  EXPECT_THAT(wrong_with("bread = 2026-11-28T08:00:00", ""), HasSubstr("\"bread\" is missing"));
}

TEST(AFileOfTheDay, KnowsTheNights) {
  const DayFile day = saturday();
  ASSERT_EQ(day.bakes.size(), 4U);
  EXPECT_EQ(day.bakes[1].loaves, 8);
  // Thursday, Friday and Saturday evening.
  ASSERT_EQ(day.house.nobody.size(), 3U);
  EXPECT_EQ(day.house.nobody[1].first, time::parse_instant("2026-11-27T22:00+01:00"));
  EXPECT_EQ(day.house.nobody[1].second, time::parse_instant("2026-11-28T04:00+01:00"));
}

TEST(ADay, IsPlannedFromItsFile) {
  const DayFile file = saturday();
  const auto day = plan_day(file, quick());
  ASSERT_TRUE(day.has_value()) << day.error().text();
  ASSERT_TRUE(day->planned) << testing::PrintToString(day->why_not);
  EXPECT_GT(day->chance->value(), 0);
  EXPECT_EQ(day->chance->draws, 200U);
  for (const DayStep& step : day->steps) {
    EXPECT_GE(step.begins, file.begins);
    for (const auto& [from, to] : file.house.nobody)
      EXPECT_TRUE(step.ends <= from || step.begins >= to) << step.what << " of " << step.bake;
    EXPECT_GE(step.hands_free, 0);
    EXPECT_LE(step.hands + step.hands_free, 2);
    const auto bake = std::find_if(file.bakes.begin(), file.bakes.end(), [&](const auto& one) {
      return one.bake.name == step.bake;
    });
    ASSERT_NE(bake, file.bakes.end()) << step.bake;
    if (step.what == "unload") {
      const auto cool = static_cast<std::int64_t>(bake->oven->many.cut_after.p10);
      EXPECT_LE(step.begins + cool, bake->bread) << step.bake;
    }
  }
  const auto mead_steps = std::count_if(day->steps.begin(), day->steps.end(), [](const auto& step) {
    return step.bake == "Mead loaf, half and half";
  });
  EXPECT_GE(mead_steps, 7);  // feed, mix, fold, divide, shape, load, unload
  EXPECT_THAT(day->cautions, Contains(AllOf(HasSubstr("Mead loaf"), HasSubstr("local rules"))));
  EXPECT_EQ(to_json(*day)["steps"].size(), day->steps.size());
}

const dayplan::Leg& leg_of(const dayplan::Way& way, const std::string& what) {
  const auto found = std::find_if(
      way.legs.begin(), way.legs.end(), [&](const dayplan::Leg& leg) { return leg.what == what; });
  EXPECT_NE(found, way.legs.end()) << what;
  return *found;
}

// 6 loaves are 17 min of work, the file's proof 2 h. Of three doughs one is past its best an hour
// before the proof is over, one ten minutes after it, one never.
TEST(ADay, LetsALoafWaitForTheOvenNoLongerThanItLasts) {
  const DayFile file = saturday();
  WayDraws drawn;
  drawn.dough.stays = {-60, 10, dayplan::for_ever};
  const auto way = steps_of(file, file.bakes[0], {}, drawn);
  ASSERT_TRUE(way.has_value());
  const dayplan::Leg& proof = leg_of(*way, "proof");
  EXPECT_THAT(proof.ready,
              testing::ElementsAre(47, 117, 137));  // half an hour before it is past it
  EXPECT_THAT(proof.lasts, testing::ElementsAre(30, 30, 30));
}

// The dough of the forecast, looked at by itself: the cold of the perry loaf, and its oven.
TEST(ADay, DrawsTheOvenAndTheColdToo) {
  const DayFile file = saturday();
  forecast::Options options;
  options.draws = 80;
  const auto day = drawn_day(file, options);
  ASSERT_TRUE(day.has_value()) << day.error().text();
  const auto perry = std::find_if(day->bakes.begin(), day->bakes.end(), [](const auto& bake) {
    return bake.name == "Perry loaf";
  });
  const dayplan::Leg& cooling = leg_of(perry->ways[0], "cooling");
  ASSERT_EQ(cooling.ready.size(), 80U);
  EXPECT_LT(*std::min_element(cooling.ready.begin(), cooling.ready.end()),
            *std::max_element(cooling.ready.begin(), cooling.ready.end()));
  const dayplan::Leg& cold = leg_of(perry->ways[0], "cold");
  ASSERT_EQ(cold.lasts.size(), 80U);
  EXPECT_LE(*std::max_element(cold.lasts.begin(), cold.lasts.end()), 12 * 60 + 120);
  // The chance is counted on loaves that the plan has not seen.
  options.seed = 2;
  const dayplan::Plan as_written(4);
  const auto fresh = drawn_day(file, options, &as_written);
  ASSERT_TRUE(fresh.has_value());
  const auto at = static_cast<std::size_t>(perry - day->bakes.begin());
  EXPECT_NE(leg_of(fresh->bakes[at].ways[0], "cooling").ready, cooling.ready);
}

TEST(ADay, BakesAsLongAsTheOvenSays) {
  const DayFile file = saturday();
  const auto day = plan_day(file, quick());
  ASSERT_TRUE(day.has_value()) << day.error().text();
  const auto begins = [&](const std::string& bake, const std::string& what) {
    for (const DayStep& step : day->steps) {
      if (step.bake == bake && step.what == what) return step.begins.seconds;
    }
    ADD_FAILURE() << bake << " has no " << what;
    return std::int64_t{0};
  };
  for (const DayBake& each : file.bakes) {
    // What `barm oven` says of it, whether its file names an oven or not.
    formula::Bake in_loaves = each.bake;
    if (!in_loaves.pieces) in_loaves.pieces = each.loaves;
    const auto baked = oven(in_loaves, {}, {});
    ASSERT_TRUE(baked.has_value()) << baked.error().text();
    const double in_it =
        static_cast<double>(begins(each.bake.name, "unload") - begins(each.bake.name, "load")) / 60;
    const double minutes = baked->in_oven().p50 / 60;
    EXPECT_GE(in_it, minutes) << each.bake.name;
    EXPECT_LE(in_it, minutes + 40) << each.bake.name;  // loading, and up to ten minutes longer
  }
}

// By adding up who is there at the beginning of each holding, not by the planner's own count.
TEST(ADay, ShowsWhoHoldsWhatAndNeverMoreThanTheHouseHas) {
  const DayAnswer answer = plan_day(saturday(), quick()).value();
  ASSERT_EQ(answer.held.size(), 5U);
  for (const HeldRow& row : answer.held) {
    EXPECT_FALSE(row.by.empty()) << row.what;
    for (const HeldBy& one : row.by) {
      EXPECT_LT(one.from, one.to) << row.what;
      int there = 0;
      for (const HeldBy& other : row.by)
        there += other.from <= one.from && one.from < other.to ? other.amount : 0;
      EXPECT_LE(there, row.of) << row.what << " at " << one.from.text();
    }
  }
  const auto at_work = static_cast<std::size_t>(
      std::count_if(answer.steps.begin(), answer.steps.end(), [](const DayStep& step) {
        return step.hands > 0;
      }));
  EXPECT_EQ(answer.held.front().what, "hands");
  EXPECT_EQ(answer.held.front().by.size(), at_work);
}

TEST(ADay, OfATextAsksForItsBakesByNameAndSaysTheLine) {
  const std::string text =
      "name = \"S\"\nbegins = 2026-11-27T05:00:00\nbread = 2026-11-28T08:00:00\n[house]\n"
      "[[bake]]\nfile = \"b7\"\n";
  const auto day =
      parse_day(text,
                "day",
                winter,
                [](const std::string& name, const FilePlace& place) -> Result<KnownBake> {
                  return failure(ErrorCode::not_found, place.text(), name + " is none");
                });
  ASSERT_FALSE(day);
  EXPECT_THAT(day.error().where, StartsWith("day:6:"));
  EXPECT_EQ(day.error().message, "b7 is none");
}

TEST(ADay, IsWrittenAsACalendarWithAnAlarmForEachStep) {
  const auto day = plan_day(saturday(), quick());
  ASSERT_TRUE(day && day->planned);
  const std::string calendar = day_calendar(*day, {10.0 * minute, {}, winter});
  std::istringstream lines(calendar);
  std::vector<std::string> begins;
  std::size_t alarms = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("DTSTART:")) begins.push_back(line.substr(8, 16));
    if (line.starts_with("TRIGGER:-PT10M")) ++alarms;
  }
  ASSERT_EQ(begins.size(), day->steps.size());
  EXPECT_EQ(alarms, begins.size());
  for (std::size_t i = 0; i < begins.size(); ++i) {
    std::string moment = day->steps[i].begins.text();
    std::erase_if(moment, [](char c) { return c == '-' || c == ':'; });
    EXPECT_EQ(begins[i], moment);
  }
}

TEST(ADay, WithoutPlanSaysWhy) {
  DayFile file = saturday();
  file.house.decks = 1;
  file.house.loaves_on_a_deck = 4;  // the stout loaves need two decks
  const auto day = plan_day(file, quick());
  ASSERT_TRUE(day.has_value());
  EXPECT_FALSE(day->planned);
  EXPECT_THAT(day->why_not,
              Contains(AnyOf(HasSubstr("one more deck of the oven"),
                             HasSubstr("two more decks of the oven"))));
}

// Each of the four doughs has alcohol in it: what can happen and what bakers do is said once.
TEST(ADay, SaysACautionOnce) {
  const DayAnswer answer = plan_day(saturday(), quick()).value();
  for (const char* words : {"no flame", "stays under a quarter", "Some alcohol stays", "label"}) {
    const auto number =
        std::count_if(answer.cautions.begin(), answer.cautions.end(), [&](const auto& line) {
          return line.find(words) != std::string::npos;
        });
    EXPECT_EQ(number, 1) << words;
  }
  EXPECT_LE(answer.cautions.size(), 6U);
  EXPECT_THAT(answer.cautions,
              Contains(AllOf(HasSubstr("Alcohol vapour"), HasSubstr("Mead"), HasSubstr("Stout"))));
}

// Six mead loaves at once want two decks of four; there is one.
TEST(ADay, TriesWaysThatNobodyAllowedAndSaysWhichHelp) {
  DayFile file = saturday();
  file.house.decks = 1;
  file.house.loaves_on_a_deck = 4;
  file.bakes.resize(1);
  const auto day = plan_day(file, quick());
  ASSERT_TRUE(day.has_value());
  ASSERT_FALSE(day->planned);
  EXPECT_THAT(day->why_not, Contains("It would go with the Mead loaf, half and half in 2 loads."));
}

TEST(ADay, MovesAStepByHand) {
  DayRequest request = quick();
  const auto before = plan_day(saturday(), request);
  ASSERT_TRUE(before && before->planned);
  const DayStep& feed = before->steps.front();
  request.move = {feed.bake, feed.what, "2026-11-28T07:30"};
  const auto refused = plan_day(saturday(), request);
  EXPECT_THAT(refused->moved, Contains(HasSubstr("cannot be moved")));
  EXPECT_THAT(refused->moved, Contains(HasSubstr("It would break: ")));
  request.move->step = "knead";
  EXPECT_EQ(plan_day(saturday(), request).error().code, ErrorCode::bad_input);
}

}  // namespace

}  // namespace barm::service

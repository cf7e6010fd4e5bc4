// Ovens, fridges and mixers of a house: which one a bake uses, what it has learned, what is said.
#include "service/house/equipment.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "formula/read.h"
#include "service/bake/mix.h"
#include "service/daybook/daybook.h"
#include "service/house/fridge.h"
#include "service/oven/oven.h"
#include "service/oven/words.h"
#include "support/folder.h"
#include "support/matchers.h"

namespace barm::service {

namespace {

using ::barm::test::FailsWith;
using ::barm::test::Folder;
using ::barm::test::Holds;
using storage::Equipment;
using testing::HasSubstr;
using testing::Not;

const Now noon{*time::parse_instant("2026-11-28T12:00:00Z"), time::Zone::fixed(0)};

formula::Bake bake_of(const std::string& more, int pieces = 4) {
  const auto bake = formula::parse_bake(
      "name = \"Marsh loaf\"\npieces = " + std::to_string(pieces) +
          "\npiece = \"900 g\"\n[bowl]\n\"white bread flour\" = \"100 %\"\nwater = \"66 %\"\nsalt "
          "= "
          "\"2 %\"\n\"fresh yeast\" = \"2 %\"\n[[stage]]\ndo = \"bulk\"\ntemperature = \"24 C\"\n" +
          more,
      "b.toml");
  if (bake) return *bake;
  ADD_FAILURE() << bake.error().text();
  return {};
}

Equipment one(const std::string& title, const std::string& toml, const std::string& what = "oven") {
  Equipment out;
  out.id = title.substr(0, title.find(' '));
  out.title = title;
  out.what = what;
  out.toml = toml;
  return out;
}

const std::string forty_minutes = "[oven]\nset = \"230 C\"\nbake = \"40 min\"\n";

// A probe's readings in a loaf of that bake, in an oven that is so much hotter than its dial and
// passes heat on so much better than the book's.
std::vector<heat::ProbeReading> probed(const formula::Bake& bake, const oven::Luck& luck) {
  const auto asked = service::oven(bake, {}, {});
  if (!asked) return {};
  const oven::Baked baked = oven::bake(asked->loaf, asked->oven, asked->lasts, luck);
  std::vector<heat::ProbeReading> out;
  for (const oven::Minute& minute : baked.course)
    out.push_back({Time::from_si(minute.seconds), Temperature::from_celsius(minute.core)});
  return out;
}

TEST(House, GivesItsOnlyOneOrTheOneThatIsNamed) {
  const Inventory house{one("Deck oven", ""), one("Tall fridge", "", "fridge")};
  EXPECT_EQ((*of_house(house, "oven", ""))->title, "Deck oven");
  EXPECT_EQ((*of_house(house, "oven", "deck OVEN"))->title, "Deck oven");
  EXPECT_EQ(*of_house(house, "mixer", ""), std::nullopt);
  const auto unknown = of_house(house, "oven", "stone oven");
  ASSERT_THAT(unknown, FailsWith(ErrorCode::not_found));
  EXPECT_THAT(unknown.error().message, HasSubstr("there is Deck oven"));
  Inventory two = house;
  two.push_back(one("Stone oven", ""));
  EXPECT_EQ(*of_house(two, "oven", ""), std::nullopt) << "nobody said which";
}

TEST(House, ItsOvenFillsInWhatTheBakeDoesNotSay) {
  const Inventory house{one("Deck oven", "holds = 2\ncavity = \"200 L\"\nstone = true\n")};
  const auto baked = service::oven(at_home(bake_of(forty_minutes), house, noon.zone), {}, {});
  ASSERT_THAT(baked, Holds());
  EXPECT_EQ(baked->with, "Deck oven");
  EXPECT_NEAR(baked->oven.cavity.in(litre), 200, 1e-9);
  EXPECT_GT(baked->oven.on_stone, 0);
  EXPECT_EQ(baked->oven.loaves, 2) << "as many as it takes";
  const auto said_otherwise = service::oven(
      at_home(bake_of(forty_minutes + "cavity = \"60 L\"\nstone = false\n"), house, noon.zone),
      {},
      {});
  ASSERT_THAT(said_otherwise, Holds());
  EXPECT_NEAR(said_otherwise->oven.cavity.in(litre), 60, 1e-9);
  EXPECT_EQ(said_otherwise->oven.on_stone, 0);
}

TEST(House, ABakeWithoutAnOvenStaysSoAndAnUnknownNameIsTold) {
  const Inventory house{one("Deck oven", "holds = 2\n")};
  EXPECT_FALSE(at_home(bake_of(""), house, noon.zone).house_oven);
  const formula::Bake lost =
      at_home(bake_of(forty_minutes + "name = \"stone oven\"\n"), house, noon.zone);
  ASSERT_TRUE(lost.house_oven);
  EXPECT_THAT(lost.house_oven->words, HasSubstr("'stone oven', of which nothing is known"));
}

TEST(House, AnOvenLearnsFromTwoBakesTogether) {
  const oven::Luck truth{0.8, -0.5, 0.9, 1.1, 0, 0, 0};
  const formula::Bake first = bake_of(forty_minutes);
  const formula::Bake second =
      bake_of("[oven]\nset = \"250 C\"\nbake = \"35 min\"\nform = \"tin\"\n");
  OvenRequest request;
  request.of = one("Deck oven", "holds = 6\n");
  request.measured_at = noon.at;
  request.probe = probed(first, truth);
  const auto once = service::oven(first, request, {});
  ASSERT_THAT(once, Holds());
  ASSERT_TRUE(once->keep);
  EXPECT_EQ(said(*once->keep, noon.zone), "Deck oven, learned 28 Nov 2026 from 1 bake");
  EXPECT_THAT(once->keep->toml, HasSubstr("holds = 6\n"));
  request.of = once->keep;
  request.measured_at = noon.at + 86400;
  request.probe = probed(second, truth);
  const auto twice = service::oven(second, request, {});
  ASSERT_THAT(twice, Holds());
  EXPECT_EQ(said(*twice->keep, noon.zone), "Deck oven, learned 29 Nov 2026 from 2 bakes");
  EXPECT_LT(twice->learned->core_off.value(), 1.5) << "both bakes, not the last alone";
  EXPECT_LE(twice->known.doubt.conduction, once->known.doubt.conduction + 1e-9);

  // A third bake in it, measured by nobody, comes out as in the true oven.
  const formula::Bake third =
      bake_of("[oven]\nset = \"220 C\"\nbake = \"45 min\"\nform = \"long\"\n");
  const formula::Bake there = baked_in(third, *twice->keep, noon.zone);
  const double known = service::oven(there, {}, {})->many.book.course.back().core;
  const double book = service::oven(third, {}, {})->many.book.course.back().core;
  const double true_core = probed(third, truth).back().temperature.celsius();
  EXPECT_LT(std::abs(known - true_core), 1.0);
  EXPECT_GT(std::abs(book - true_core), std::abs(known - true_core));
}

TEST(House, AnOvenLearnedByTheScaleAloneSaysNothingOfAProbe) {
  OvenRequest weighed;
  weighed.weighed = 0.15;
  const auto answer = service::oven(bake_of(forty_minutes), weighed, {});
  ASSERT_THAT(answer, Holds());
  EXPECT_FALSE(answer->learned->core_off);
  EXPECT_THAT(service::how_near(*answer->learned),
              testing::MatchesRegex("weight within [0-9.]+ % of the scale"));
  EXPECT_TRUE(to_json(*answer)["learned"]["core_off_K"].is_null());
  weighed.weighed = 0.35;
  const auto strange = service::oven(bake_of(forty_minutes), weighed, {});
  ASSERT_THAT(strange, Holds());
  ASSERT_EQ(strange->notes.size(), 1U);
  EXPECT_THAT(strange->notes.front(), HasSubstr("with a probe in its core as well, would help"));
  EXPECT_THAT(strange->notes.front(), Not(HasSubstr("the probe's tip")));
}

// A probe that slipped out and in again: no oven heats a core so. Beside it the same oven's good
// file.
TEST(House, AnOvenLearnedFromAPoorFileIsWarnedOfAndStaysInDoubt) {
  const formula::Bake bake = bake_of(forty_minutes);
  const oven::Luck truth{0.8, -0.5, 0.9, 1.1, 0, 0, 0};
  OvenRequest good;
  good.of = one("Deck oven", "");
  good.measured_at = noon.at;
  good.probe = probed(bake, truth);
  OvenRequest poor = good;
  for (std::size_t i = 0; i < poor.probe.size(); ++i) {
    const double slipped = i / 8 % 2 == 0 ? 9 : -9;
    poor.probe[i].temperature = Temperature::from_celsius(
        std::clamp(good.probe[i].temperature.celsius() + slipped, 5.0, 108.0));
  }
  const auto known = service::oven(bake, good, {});
  const auto doubted = service::oven(bake, poor, {});
  ASSERT_THAT(known, Holds());
  ASSERT_THAT(doubted, Holds());
  EXPECT_TRUE(known->notes.empty());
  ASSERT_EQ(doubted->notes.size(), 1U);
  EXPECT_THAT(doubted->notes.front(), HasSubstr("fits no oven well"));
  EXPECT_THAT(doubted->notes.front(), HasSubstr("would help"));
  EXPECT_GT(doubted->learned->core_off.value(), oven::poor_core);
  EXPECT_GT(doubted->known.doubt.conduction, known->known.doubt.conduction + 0.1);
  // The next bake in it, foretold by what was kept.
  const auto width = [&](const service::OvenAnswer& taught) {
    const auto next = service::oven(baked_in(bake, *taught.keep, noon.zone), {}, {});
    return next->many.core.p90 - next->many.core.p10;
  };
  EXPECT_GT(width(*doubted), 1.3 * width(*known));
  // As wide as of an unknown oven, where the core stands alike far from the boil.
  const auto in_doubt = [&](const oven::Luck& doubt) {
    oven::LearnedOven like;
    like.doubt = doubt;
    const auto many = oven::many(
        known->loaf, known->oven, like, known->lasts, Temperature::from_celsius(22), 200, 1);
    return many.core.p90 - many.core.p10;
  };
  const double of_unknown = in_doubt(oven::LearnedOven().doubt);
  EXPECT_GT(in_doubt(doubted->known.doubt), 0.8 * of_unknown);
  EXPECT_LT(in_doubt(known->known.doubt), 0.7 * of_unknown);
}

TEST(House, AGapInAProbesFileIsSaid) {
  const formula::Bake bake = bake_of(forty_minutes);
  OvenRequest request;
  request.of = one("Deck oven", "");
  request.measured_at = noon.at;
  request.probe = probed(bake, {});
  request.probe.erase(request.probe.begin() + 12, request.probe.begin() + 15);
  const auto learned = service::oven(bake, request, {});
  ASSERT_THAT(learned, Holds());
  ASSERT_EQ(learned->notes.size(), 1U);
  EXPECT_THAT(learned->notes.front(), HasSubstr("from 11 to 15 min"));
}

TEST(House, LessonsAreReadAsTheyWereWritten) {
  OvenRequest request;
  request.of = one("Deck oven", "");
  request.measured_at = noon.at;
  request.weighed = 0.135;
  const auto learned = service::oven(bake_of(forty_minutes + "power = \"3 kW\"\n"), request, {});
  ASSERT_THAT(learned, Holds());
  const auto lessons = lessons_of(*learned->keep);
  ASSERT_THAT(lessons, Holds());
  ASSERT_EQ(lessons->size(), 1U);
  const oven::Measured& kept = *lessons->front().baked;
  EXPECT_EQ(lessons->front().bake, "Marsh loaf");
  EXPECT_NEAR(kept.loaf.mass.in(gram), 900, 1e-9);
  EXPECT_EQ(kept.loaf.makeup.water, learned->loaf.makeup.water);
  EXPECT_NEAR(kept.lasts.in(minute), 40, 1e-9);
  EXPECT_EQ(kept.loss, 0.135);
  EXPECT_EQ(lessons_text(*lessons), learned->keep->measured);
  EXPECT_THAT(check_equipment(*learned->keep), Holds());
}

TEST(House, NoMoreThanTheNewestLessonsStay) {
  std::vector<Lesson> many;
  for (int i = 0; i < 20; ++i) many.push_back({noon.at + i, "bake " + std::to_string(i), {}});
  Equipment oven = one("Deck oven", "");
  oven.measured = lessons_text(many);
  const auto kept = lessons_of(oven);
  ASSERT_THAT(kept, Holds());
  EXPECT_EQ(kept->size(), most_lessons);
  EXPECT_EQ(kept->back().bake, "bake 19");
}

TEST(House, RefusesLinesThatAreNoneAndLessonsNobodyWrote) {
  const auto refused = [](Equipment wrong, const std::string& where) {
    const auto checked = check_equipment(wrong);
    EXPECT_THAT(checked, FailsWith(ErrorCode::bad_input)) << wrong.toml << wrong.measured;
    if (!checked) {
      EXPECT_EQ(checked.error().where, where);
    }
  };
  refused(one("Deck oven", "set = \"230 C\"\n"), "toml");  // of the bake, not of the oven
  refused(one("Deck oven", "holds = 0\n"), "toml");
  refused(one("Deck oven", "cavity = \"1 L\"\n"), "toml");
  refused(one("Tall fridge", "power = \"5 W\"\n", "fridge"), "toml");
  refused(one("Tall fridge", "set = \"40 C\"\n", "fridge"), "toml");
  refused(one("Spiral", "friction = \"20 W\"\n", "mixer"), "toml");
  for (const char* text :
       {"{}",
        "no json",
        "[1]",
        "[{\"at\": \"noon\", \"bake\": \"b\"}]",
        "[{\"at\": \"2026-11-28T12:00:00Z\", \"bake\": \"b\", \"baked\": {}}]"}) {
    Equipment wrong = one("Deck oven", "");
    wrong.measured = text;
    refused(wrong, "measured");
  }
}

TEST(House, AFridgeAndAMixerAreKnownTheNextTime) {
  const formula::Bake bake = bake_of("");
  FridgeRequest warm;
  warm.power = 60;
  warm.lasts = 3.0 * hour;
  const auto cooled = fridge(bake, warm);
  ASSERT_THAT(cooled, Holds());
  FridgeRequest probing;
  probing.of = one("Tall fridge", "", "fridge");
  probing.measured_at = noon.at;
  for (const heat::Chilled& at : cooled->course)
    probing.probe.push_back({at.hours * hour, Temperature::from_celsius(at.air)});
  const auto learned = fridge(bake, probing);
  ASSERT_THAT(learned, Holds());
  EXPECT_EQ(said(*learned->keep, noon.zone), "Tall fridge, learned 28 Nov 2026 from 1 load");
  FridgeRequest next;
  next.of = learned->keep;
  const auto known = fridge(bake, next);
  ASSERT_THAT(known, Holds());
  EXPECT_NEAR(known->fridge.power, learned->fridge.power, 0.01);
  EXPECT_NEAR(known->air_peak, learned->air_peak, 0.01);

  MixRequest reading;
  reading.of = one("Spiral", "", "mixer");
  reading.measured_at = noon.at;
  reading.readings = {*parse_mixer_reading("2min 21C"), *parse_mixer_reading("8min 25C")};
  const auto mixed = mix(bake, reading);
  ASSERT_THAT(mixed, Holds());
  MixRequest again;
  again.of = mixed->keep;
  const auto by_it = mix(bake, again);
  ASSERT_THAT(by_it, Holds());
  EXPECT_TRUE(by_it->friction_learned);
  EXPECT_NEAR(by_it->friction.power.si(), mixed->friction.power.si(), 1e-3);
}

TEST(House, KeepsNoTwoOfAKindUnderOneNameAndEveryBakeHasIt) {
  const Folder folder;
  auto daybook = storage::Daybook::open(folder / "daybook.barm", {.create = true});
  ASSERT_THAT(daybook, Holds());
  ASSERT_THAT(save_equipment(*daybook, one("Deck oven", "cavity = \"200 L\"\n"), noon), Holds());
  Equipment same = one("deck oven", "");
  same.id = "other";
  EXPECT_THAT(save_equipment(*daybook, same, noon), FailsWith(ErrorCode::bad_input));
  same.what = "fridge";
  EXPECT_THAT(save_equipment(*daybook, same, noon), Holds()) << "a fridge is no oven";
  EXPECT_THAT(save_record(*daybook,
                          storage::Kind::equipment,
                          {{"title", "Stone oven"}, {"toml", "holds = many"}},
                          noon),
              FailsWith(ErrorCode::bad_input));
  storage::Bake bake;
  bake.id = "b";
  bake.toml =
      "name = \"B\"\npieces = 1\npiece = \"900 g\"\n[bowl]\n\"white bread flour\" = \"100 "
      "%\"\nwater = \"66 %\"\n\"fresh yeast\" = \"2 %\"\n" +
      forty_minutes;
  ASSERT_THAT(save_bake(*daybook, bake, noon), Holds());
  const auto stored = stored_bake(*daybook, "b", noon);
  ASSERT_THAT(stored, Holds());
  ASSERT_TRUE(stored->house_oven);
  EXPECT_NEAR(stored->house_oven->can.cavity->in(litre), 200, 1e-9);
  ASSERT_THAT(daybook->remove(storage::Kind::equipment, "Deck", 0, noon.at), Holds());
  EXPECT_FALSE(stored_bake(*daybook, "b", noon)->house_oven) << "it is in the trash";
  ASSERT_THAT(daybook->undo(storage::Kind::equipment, "Deck", noon.at), Holds());
  EXPECT_TRUE(stored_bake(*daybook, "b", noon)->house_oven);
}

}  // namespace

}  // namespace barm::service

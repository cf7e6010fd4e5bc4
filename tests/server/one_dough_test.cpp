// One dough, one answer: by its id, with a form that is not saved yet, today and in the calendar.
#include <gmock/gmock.h>

#include <chrono>
#include <utility>

#include "server/running.h"
#include "time/instant.h"

namespace barm::test {
namespace {

using InOrder = nlohmann::ordered_json;  // the order of a bowl counts
using testing::HasSubstr;

class OneDough : public testing::Test {
 protected:
  InOrder ask(const std::string& path, const InOrder& body) {
    const auto reply = client_->Post(path, zone_, body.dump(), "application/json");
    EXPECT_TRUE(reply && reply->status < 300) << path << (reply ? reply->body : "");
    return reply ? InOrder::parse(reply->body) : InOrder();
  }

  InOrder get(const std::string& path) {
    const auto reply = client_->Get(path, zone_);
    EXPECT_TRUE(reply && reply->status == 200) << path << (reply ? reply->body : "");
    return reply ? InOrder::parse(reply->body) : InOrder();
  }

  // A moment so many hours ago.
  [[nodiscard]] std::string ago(double hours) const {
    return time::Instant{now_ - std::llround(3600 * hours)}.text();
  }

  std::string live(const std::string& name, double hours_ago) {
    const InOrder bake = ask(
        "/api/bakes", {{"state", "live"}, {"mixed_at", ago(hours_ago)}, {"toml", example(name)}});
    return bake.at("id");
  }

  InOrder look(const std::string& bake, double hours_ago, InOrder read) {
    read["bake"] = bake;
    read["at"] = ago(hours_ago);
    return ask("/api/readings", read);
  }

  InOrder form_of(const std::string& bake) {
    return ask("/api/bake", {{"bake_id", bake}}).at("form");
  }

  InOrder today(const std::string& bake) {
    const InOrder answer = get("/api/today");
    for (const InOrder& dough : answer.at("doughs")) {
      if (dough.at("bake") == bake) return dough;
    }
    ADD_FAILURE() << "not of today";
    return {};
  }

  const Folder folder_;
  Running running_{{.daybook = folder_ / "d.barm"}};
  decltype(running_.client()) client_ = running_.client();
  const httplib::Headers zone_{{"Barm-Zone", "Europe/Berlin"}};
  const std::int64_t now_ = std::chrono::duration_cast<std::chrono::seconds>(
                                std::chrono::system_clock::now().time_since_epoch())
                                .count();
};

// What makes two ways to the same dough: salt poured short, a second of mixing, heights as edge and
// dome, a ratio beside a height.
TEST_F(OneDough, IsToldTheSameWhicheverWayItIsAsked) {
  const std::string id = live("mead-loaf", 5.0061);
  ask("/api/marks",
      {{"bake", id}, {"what", "weigh"}, {"of", "salt"}, {"poured_g", 55}, {"at", ago(5)}});
  look(id, 4.9, {{"height_mm", 50}, {"ratio", 1}, {"sample_C", 24}, {"ph", 5.1}});
  look(id, 3, {{"edge_mm", 50}, {"dome_mm", 53}, {"sample_C", 24}});
  look(id, 1.5, {{"height_mm", 54}});
  look(id, 0.2, {{"height_mm", 57.5}, {"ph", 4.9}});

  const InOrder by_id = ask("/api/read", {{"bake_id", id}});
  const InOrder form = form_of(id);
  const InOrder as_typed = ask("/api/read", {{"bake", form}, {"bake_id", id}});
  EXPECT_EQ(as_typed.at("after"), by_id.at("after"));
  EXPECT_EQ(as_typed.at("head"), by_id.at("head"));
  EXPECT_EQ(as_typed.at("bowl"), by_id.at("bowl"));
  EXPECT_EQ(by_id.at("readings").size(), 4);

  const InOrder foreseen = ask("/api/foresee", {{"bake_id", id}});
  EXPECT_EQ(ask("/api/foresee", {{"bake", form}, {"bake_id", id}}), foreseen);

  EXPECT_EQ(today(id).at("head"), by_id.at("head").at("words"));

  const auto link = client_->Get("/api/bakes/" + id + "/calendar.ics", zone_);
  const auto asked = client_->Post(
      "/api/calendar", zone_, InOrder{{"bake", form}, {"bake_id", id}}.dump(), "application/json");
  ASSERT_TRUE(link && asked && link->status == 200 && asked->status == 200) << asked->body;
  const auto without_stamp = [](std::string text) {
    for (std::size_t at = 0; (at = text.find("DTSTAMP:", at)) != std::string::npos;)
      text.erase(at, text.find("\r\n", at) + 2 - at);
    return text;
  };
  EXPECT_EQ(without_stamp(asked->body), without_stamp(link->body));
}

TEST_F(OneDough, AnUnsavedHourOfMixingCountsAtOnce) {
  const std::string id = live("mead-loaf", 5);
  look(id, 4.9, {{"height_mm", 50}});
  look(id, 0.2, {{"height_mm", 70}});
  InOrder form = form_of(id);
  const InOrder saved = ask("/api/read", {{"bake_id", id}});
  const InOrder earlier = get("/api/bakes/" + id);
  form["mixed"] = "2026-01-01T07:00:00";
  InOrder changed = earlier;
  changed["toml"] = ask("/api/bake", {{"bake", form}}).at("text");
  const InOrder unsaved = ask("/api/foresee", {{"bake", form}, {"bake_id", id}});
  const auto put =
      client_->Put("/api/bakes/" + id,
                   zone_,
                   InOrder{{"revision", earlier.at("revision")}, {"toml", changed["toml"]}}.dump(),
                   "application/json");
  ASSERT_TRUE(put && put->status == 200) << (put ? put->body : "");
  EXPECT_EQ(ask("/api/foresee", {{"bake_id", id}}).at("mixed_at"), unsaved.at("mixed_at"));
  EXPECT_NE(saved.at("mixed_at"), unsaved.at("mixed_at"));
}

TEST_F(OneDough, KnowsTheReadingsThatAreOnTheirWay) {
  const std::string id = live("mead-loaf", 5);
  look(id, 4.9, {{"height_mm", 50}});
  const InOrder noted = look(id, 2, {{"height_mm", 56}});
  const InOrder on_the_way = {{"id", "here-1"}, {"at", ago(0.5)}, {"height_mm", 62.5}};
  const InOrder both = ask("/api/read", {{"bake_id", id}, {"unsent", {on_the_way, noted}}});
  ASSERT_EQ(both.at("readings").size(), 3) << "what the daybook has counts once";
  look(id, 0.5, {{"id", "here-1"}, {"height_mm", 62.5}});
  EXPECT_EQ(ask("/api/read", {{"bake_id", id}}).at("after"), both.at("after"));
  const auto refused = client_->Post(
      "/api/read",
      InOrder{{"bake_id", id}, {"unsent", {{{"at", "soon"}, {"height_mm", 50}}}}}.dump(),
      "application/json");
  ASSERT_TRUE(refused);
  EXPECT_EQ(refused->status, 400);
  EXPECT_THAT(refused->body, HasSubstr("/unsent/0/at"));
}

// The same work for every screen of it, until the daybook says more.
TEST_F(OneDough, IsReadOnceForAllWhoTellOfIt) {
  const std::string id = live("mead-loaf", 5);
  look(id, 4.9, {{"height_mm", 50}});
  look(id, 2, {{"height_mm", 56}});
  const auto timed = [](const auto& asking) {
    const auto begun = std::chrono::steady_clock::now();
    InOrder answer = asking();
    return std::pair(std::move(answer), std::chrono::steady_clock::now() - begun);
  };
  const auto read = [&] {
    return ask("/api/read", {{"bake_id", id}, {"unsent", InOrder::array()}});
  };
  const InOrder late = {{"bake_id", id}, {"now", "5h"}, {"by", "14h"}};
  InOrder by_itself = late;
  by_itself["horizon_h"] = 73;  // not as usual: what was learned elsewhere is no help
  const InOrder ways = ask("/api/rescue", by_itself);

  const auto [first, worked] = timed(read);
  const auto [again, kept] = timed(read);
  EXPECT_EQ(again, first);
  EXPECT_LT(kept, worked / 3);
  const auto [of_today, told] = timed([&] { return today(id); });
  EXPECT_EQ(of_today.at("head"), first.at("head").at("words"));
  EXPECT_LT(told, worked / 3);
  EXPECT_EQ(ask("/api/rescue", late), ways);

  look(id, 0.2, {{"height_mm", 75}});
  EXPECT_NE(read().at("after"), first.at("after"));
  EXPECT_NE(today(id).at("head"), of_today.at("head"));
}

// More than a list hands out at a time: the newest count as well as the oldest.
TEST_F(OneDough, IsReadWholeHoweverOftenItWasLookedAt) {
  const std::string id = live("mead-loaf", 6);
  constexpr int looks = 520;
  for (int i = 0; i < looks; ++i) {
    const double at = 5.9 * (looks - i) / looks;
    look(id, at, {{"height_mm", 50 + 2.0 * (5.9 - at)}, {"sample_C", 24}});
  }
  const InOrder all = ask("/api/read", {{"bake_id", id}});
  EXPECT_THAT(all.at("notes").dump(), HasSubstr("520 rows"));
  EXPECT_EQ(all.at("start_mark_mm"), 50);
  ASSERT_LE(all.at("readings").size(), 41);
  EXPECT_GT(all.at("readings").back().at("at_h").get<double>(), 5.8);
  EXPECT_EQ(today(id).at("head"), all.at("head").at("words"));
}

// What a culture has taught is asked of its bakes once, and anew when one of them says more.
TEST_F(OneDough, StartsFromWhatItsCultureHasTaughtByNow) {
  const std::string culture =
      ask("/api/cultures",
          {{"title", "Sluice"}, {"starter", "stiff ripe levain"}, {"flour", "white bread flour"}})
          .at("id");
  const std::string next =
      ask("/api/bakes",
          {{"state", "planned"}, {"culture", culture}, {"toml", example("plain-loaf")}})
          .at("id");
  const std::string taught = live("plain-loaf", 8);
  const InOrder record = get("/api/bakes/" + taught);
  const auto put =
      client_->Put("/api/bakes/" + taught,
                   zone_,
                   InOrder{{"revision", record.at("revision")}, {"culture", culture}}.dump(),
                   "application/json");
  ASSERT_TRUE(put && put->status == 200);
  const auto ready = [&] {
    return ask("/api/foresee", {{"bake_id", next}, {"draws", 100}}).at("ready");
  };
  const InOrder of_the_book = ready();
  look(taught, 7.9, {{"height_mm", 50}});
  look(taught, 5, {{"height_mm", 80}});
  look(taught, 4, {{"height_mm", 110}});
  const InOrder after_a_lesson = ready();
  EXPECT_NE(after_a_lesson, of_the_book);
  EXPECT_EQ(ready(), after_a_lesson);
  const InOrder sluice = get("/api/cultures/" + culture);
  const auto left_out = client_->Put(
      "/api/cultures/" + culture,
      zone_,
      InOrder{{"revision", sluice.at("revision")}, {"left_out", InOrder::array({taught})}}.dump(),
      "application/json");
  ASSERT_TRUE(left_out && left_out->status == 200) << left_out->body;
  EXPECT_EQ(ready(), of_the_book);
}

// The record refuses what the estimation could not take, and takes what it can.
TEST_F(OneDough, IsReadByNumbersThatADoughCanHave) {
  const std::string id = live("mead-loaf", 5);
  const auto status = [&](InOrder reading) {
    reading["bake"] = id;
    reading["at"] = ago(1);
    const auto reply = client_->Post("/api/readings", zone_, reading.dump(), "application/json");
    return reply ? reply->status : 0;
  };
  for (const auto& [key, low, high, off] : {std::tuple{"height_mm", 1.0, 1000.0, 0.5},
                                            std::tuple{"ratio", 0.2, 20.0, 0.1},
                                            std::tuple{"sample_C", -5.0, 60.0, 0.5},
                                            std::tuple{"bulk_C", -5.0, 60.0, 0.5},
                                            std::tuple{"room_C", -5.0, 60.0, 0.5},
                                            std::tuple{"ph", 2.5, 8.5, 0.5}}) {
    for (const double good : {low, high}) EXPECT_EQ(status({{key, good}}), 201) << key << good;
    for (const double bad : {low - off, high + off})
      EXPECT_EQ(status({{key, bad}}), 400) << key << bad;
  }
}

}  // namespace
}  // namespace barm::test

// One dough, one answer: by its id, with a form that is not saved yet, today and in the calendar.
#include <gmock/gmock.h>

#include "server/running.h"
#include "time/instant.h"

namespace barm::test {
namespace {

using nlohmann::json;
using testing::HasSubstr;
using testing::Not;

class OneDough : public testing::Test {
 protected:
  json ask(const std::string& path, const json& body) {
    const auto reply = client_->Post(path, zone_, body.dump(), "application/json");
    EXPECT_TRUE(reply && reply->status < 300) << path << (reply ? reply->body : "");
    return reply ? json::parse(reply->body) : json();
  }

  json get(const std::string& path) {
    const auto reply = client_->Get(path, zone_);
    EXPECT_TRUE(reply && reply->status == 200) << path << (reply ? reply->body : "");
    return reply ? json::parse(reply->body) : json();
  }

  // A moment so many hours ago.
  [[nodiscard]] std::string ago(double hours) const {
    return time::Instant{now_ - std::llround(3600 * hours)}.text();
  }

  std::string live(const std::string& name, double hours_ago) {
    const json bake = ask(
        "/api/bakes", {{"state", "live"}, {"mixed_at", ago(hours_ago)}, {"toml", example(name)}});
    return bake.at("id");
  }

  json look(const std::string& bake, double hours_ago, json read) {
    read["bake"] = bake;
    read["at"] = ago(hours_ago);
    return ask("/api/readings", read);
  }

  json form_of(const std::string& bake) { return ask("/api/bake", {{"bake_id", bake}}).at("form"); }

  json today(const std::string& bake) {
    const json answer = get("/api/today");
    for (const json& dough : answer.at("doughs")) {
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

  const json by_id = ask("/api/read", {{"bake_id", id}});
  const json form = form_of(id);
  const json as_typed = ask("/api/read", {{"bake", form}, {"bake_id", id}});
  EXPECT_EQ(as_typed.at("after"), by_id.at("after"));
  EXPECT_EQ(as_typed.at("head"), by_id.at("head"));
  EXPECT_EQ(as_typed.at("bowl"), by_id.at("bowl"));
  EXPECT_EQ(by_id.at("readings").size(), 4);

  const json foreseen = ask("/api/foresee", {{"bake_id", id}});
  EXPECT_EQ(ask("/api/foresee", {{"bake", form}, {"bake_id", id}}), foreseen);

  EXPECT_EQ(today(id).at("head"), by_id.at("head").at("words"));

  const auto link = client_->Get("/api/bakes/" + id + "/calendar.ics", zone_);
  const auto asked = client_->Post(
      "/api/calendar", zone_, json{{"bake", form}, {"bake_id", id}}.dump(), "application/json");
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
  json form = form_of(id);
  const json saved = ask("/api/read", {{"bake_id", id}});
  const json earlier = get("/api/bakes/" + id);
  form["mixed"] = "2026-01-01T07:00:00";
  json changed = earlier;
  changed["toml"] = ask("/api/bake", {{"bake", form}}).at("text");
  const json unsaved = ask("/api/foresee", {{"bake", form}, {"bake_id", id}});
  const auto put =
      client_->Put("/api/bakes/" + id,
                   zone_,
                   json{{"revision", earlier.at("revision")}, {"toml", changed["toml"]}}.dump(),
                   "application/json");
  ASSERT_TRUE(put && put->status == 200) << (put ? put->body : "");
  EXPECT_EQ(ask("/api/foresee", {{"bake_id", id}}).at("mixed_at"), unsaved.at("mixed_at"));
  EXPECT_NE(saved.at("mixed_at"), unsaved.at("mixed_at"));
}

TEST_F(OneDough, KnowsTheReadingsThatAreOnTheirWay) {
  const std::string id = live("mead-loaf", 5);
  look(id, 4.9, {{"height_mm", 50}});
  const json noted = look(id, 2, {{"height_mm", 56}});
  const json on_the_way = {{"id", "here-1"}, {"at", ago(0.5)}, {"height_mm", 62.5}};
  const json both = ask("/api/read", {{"bake_id", id}, {"unsent", {on_the_way, noted}}});
  ASSERT_EQ(both.at("readings").size(), 3) << "what the daybook has counts once";
  look(id, 0.5, {{"id", "here-1"}, {"height_mm", 62.5}});
  EXPECT_EQ(ask("/api/read", {{"bake_id", id}}).at("after"), both.at("after"));
  const auto refused =
      client_->Post("/api/read",
                    json{{"bake_id", id}, {"unsent", {{{"at", "soon"}, {"height_mm", 50}}}}}.dump(),
                    "application/json");
  ASSERT_TRUE(refused);
  EXPECT_EQ(refused->status, 400);
  EXPECT_THAT(refused->body, HasSubstr("/unsent/0/at"));
}

// More than a list hands out at a time: the newest count as well as the oldest.
TEST_F(OneDough, IsReadWholeHoweverOftenItWasLookedAt) {
  const std::string id = live("mead-loaf", 6);
  constexpr int looks = 520;
  for (int i = 0; i < looks; ++i) {
    const double at = 5.9 * (looks - i) / looks;
    look(id, at, {{"height_mm", 50 + 2.0 * (5.9 - at)}, {"sample_C", 24}});
  }
  const json all = ask("/api/read", {{"bake_id", id}});
  EXPECT_THAT(all.at("notes").dump(), HasSubstr("520 rows"));
  ASSERT_LE(all.at("readings").size(), 41);
  EXPECT_GT(all.at("readings").back().at("at_h").get<double>(), 5.8);
  EXPECT_EQ(today(id).at("head"), all.at("head").at("words"));
}

// The record refuses what the estimation could not take, and takes what it can.
TEST_F(OneDough, IsReadByNumbersThatADoughCanHave) {
  const std::string id = live("mead-loaf", 5);
  const auto status = [&](json reading) {
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

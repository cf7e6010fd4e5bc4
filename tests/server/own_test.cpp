// What the server says of itself.
#include <gmock/gmock.h>

#include <chrono>
#include <cmath>

#include "server/running.h"
#include "time/instant.h"

namespace barm::test {
namespace {

using nlohmann::json;
using testing::HasSubstr;

TEST(Own, SaysItsClock) {
  const Running running;
  const auto reply = running.client()->Get("/api/status");
  ASSERT_TRUE(reply);
  const std::string clock = json::parse(reply->body).at("clock");
  ASSERT_THAT(clock,
              testing::MatchesRegex(
                  "[0-9]+-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9][.][0-9]+Z"));
  const auto said = time::parse_instant(clock);
  ASSERT_TRUE(said);
  const auto here = std::chrono::duration_cast<std::chrono::seconds>(
                        std::chrono::system_clock::now().time_since_epoch())
                        .count();
  EXPECT_LE(std::abs(said->seconds - here), 2);
  EXPECT_THAT(reply->get_header_value("Date"), HasSubstr(" GMT"));
}

TEST(Own, MarksWhatMayBeKept) {
  const Folder folder;
  const Running running({.daybook = folder / "daybook.barm"});
  const auto client = running.client();
  const auto kept = [&](const std::string& path) {
    const auto reply = client->Get(path);
    return reply ? reply->get_header_value("Cache-Control") : "";
  };
  for (const char* path : {"/api/bakes", "/api/today", "/api/larder?words=mead"})
    EXPECT_EQ(kept(path), "private, no-cache") << path;
  for (const char* path : {"/api/jobs/none", "/api/bakes/none", "/api/nothing"})
    EXPECT_EQ(kept(path), "no-store") << path;
  const auto job = client->Post(
      "/api/jobs",
      json{{"ask", "levain"}, {"with", {{"need_g", 300}, {"peak_in_h", 8}, {"draws", 20}}}}.dump(),
      "application/json");
  ASSERT_EQ(job->status, 202) << job->body;
  EXPECT_EQ(kept("/api/jobs/" + json::parse(job->body).at("id").get<std::string>()), "no-store");
  EXPECT_EQ(client->Post("/api/taste", "{}", "application/json")->get_header_value("Cache-Control"),
            "no-store");
}

TEST(Own, RefusesAReadingFromTheFutureWithTheReason) {
  const Folder folder;
  const Running running({.daybook = folder / "daybook.barm"});
  const auto client = running.client();
  const auto bake =
      client->Post("/api/bakes",
                   json{{"id", "b1"}, {"state", "live"}, {"toml", example("plain-loaf")}}.dump(),
                   "application/json");
  ASSERT_EQ(bake->status, 201) << bake->body;
  const std::int64_t now =
      time::parse_instant(
          json::parse(client->Get("/api/status")->body).at("clock").get<std::string>())
          ->seconds;
  const auto read_at = [&](std::int64_t ahead_s) {
    return client->Post(
        "/api/readings",
        json{{"bake", "b1"}, {"at", time::Instant{now + ahead_s}.text()}, {"height_mm", 52}}.dump(),
        "application/json");
  };
  const auto refused = read_at(3600);
  EXPECT_EQ(refused->status, 400);
  EXPECT_EQ(json::parse(refused->body).at("field"), "/at");
  EXPECT_THAT(refused->body, HasSubstr("ahead of this machine's clock"));
  EXPECT_EQ(read_at(60)->status, 201) << "clocks differ a little";
}

}  // namespace
}  // namespace barm::test

// A phone in Berlin, a server elsewhere: times are read and said as the phone's wall shows them.
#include <gtest/gtest.h>

#include "server/running.h"

namespace barm::test {
namespace {

using nlohmann::json;

std::string mixed(const std::string& moment) {
  std::string toml = example("plain-loaf");
  const std::string line = "mixed = \"07:00\"";
  return toml.replace(toml.find(line), line.size(), "mixed = \"" + moment + "\"");
}

class InBerlin : public testing::Test {
 protected:
  json ask(const std::string& path, const json& body) {
    const httplib::Headers zone{{"Barm-Zone", "Europe/Berlin"}};
    const auto reply = client_->Post(path, zone, body.dump(), "application/json");
    EXPECT_TRUE(reply && reply->status < 300) << path << (reply ? reply->body : "");
    return reply ? json::parse(reply->body) : json();
  }

  const Folder folder_;
  Running running_{{.daybook = folder_ / "d.barm"}};
  decltype(running_.client()) client_ = running_.client();
};

TEST_F(InBerlin, AnHourTypedIsTheHourOfItsWall) {
  const json bake = ask("/api/bakes", {{"state", "live"}, {"toml", mixed("2026-07-01T07:00")}});
  EXPECT_EQ(bake.at("mixed_at"), "2026-07-01T05:00:00Z");
}

TEST_F(InBerlin, TheMomentOfTheRecordIsWrittenAsItsWallShowsIt) {
  const json bake = ask(
      "/api/bakes",
      {{"state", "live"}, {"mixed_at", "2026-07-01T05:00:00Z"}, {"toml", example("plain-loaf")}});
  EXPECT_NE(bake.at("toml").get<std::string>().find("2026-07-01T07:00"), std::string::npos);
}

TEST_F(InBerlin, AZoneThatIsNoneIsRefused) {
  const auto reply = client_->Get("/api/today", {{"Barm-Zone", "Saltmarsh/Dyke"}});
  ASSERT_TRUE(reply);
  EXPECT_EQ(reply->status, 400);
  EXPECT_NE(reply->body.find("Saltmarsh/Dyke"), std::string::npos);
}

}  // namespace
}  // namespace barm::test

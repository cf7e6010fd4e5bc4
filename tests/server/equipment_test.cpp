// The house's oven behind the questions: named, learned, kept, and asked for again.
#include <gmock/gmock.h>

#include "server/running.h"

namespace barm::test {
namespace {

using nlohmann::json;
using testing::HasSubstr;

const std::string loaf =
    "name = \"Marsh loaf\"\npieces = 2\npiece = \"900 g\"\n[bowl]\n\"white bread flour\" = \"100 "
    "%\"\nwater = \"66 %\"\nsalt = \"2 %\"\n\"fresh yeast\" = \"2 %\"\n[oven]\nset = \"230 "
    "C\"\nbake = "
    "\"40 min\"\n";

class HouseAsked : public testing::Test {
 protected:
  json sent(const std::string& path, const json& body, int status = 200) {
    const auto reply = client_->Post(path, body.dump(), "application/json");
    EXPECT_EQ(reply->status, status) << reply->body;
    return json::parse(reply->body);
  }

  json put(const std::string& path, const json& body) {
    const auto reply = client_->Put(path, body.dump(), "application/json");
    EXPECT_EQ(reply->status, 200) << reply->body;
    return json::parse(reply->body);
  }

  Folder folder_;
  Running running_{{.daybook = folder_ / "daybook.barm"}};
  std::unique_ptr<httplib::Client> client_ = running_.client();
};

TEST_F(HouseAsked, AnOvenIsLearnedKeptAndUsedFromThenOn) {
  const json question = {{"bake", loaf}, {"draws", 40}};
  EXPECT_EQ(sent("/api/oven", question)["with"], "");
  const json oven = sent("/api/equipment", {{"id", "deck"}, {"title", "Deck oven"}}, 201);
  EXPECT_EQ(sent("/api/oven", question)["with"], "Deck oven") << "the answer of before is not kept";
  json measured = question;
  measured["lighter_by"] = 0.16;
  measured["named"] = "deck oven";
  const json learned = sent("/api/oven", measured);
  const json& keep = learned["keep"];
  EXPECT_THAT(keep["toml"].get<std::string>(), HasSubstr("learned = ["));
  EXPECT_EQ(client_->Get("/api/equipment/deck")->status, 200);
  EXPECT_EQ(json::parse(client_->Get("/api/equipment/deck")->body)["toml"], "")
      << "a question changes nothing";
  put("/api/equipment/deck",
      {{"toml", keep["toml"]}, {"measured", keep["measured"]}, {"revision", oven["revision"]}});
  const json known = sent("/api/oven", question);
  EXPECT_THAT(known["with"].get<std::string>(), HasSubstr("Deck oven, learned "));
  EXPECT_THAT(known["with"].get<std::string>(), HasSubstr(" from 1 bake"));
  EXPECT_NEAR(known["loss"]["p50"].get<double>(), 0.16, 0.01);
  EXPECT_EQ(sent("/api/foresee", {{"bake", loaf}, {"draws", 40}})["oven"]["with"], known["with"]);
}

TEST_F(HouseAsked, ANewOneIsLearnedBeforeAnythingIsKept) {
  json question = {{"bake", loaf}, {"draws", 40}, {"named", "Deck oven"}, {"lighter_by", 0.16}};
  EXPECT_EQ(sent("/api/oven", question, 404)["field"], "/named");
  question["keep"] = true;
  const json keep = sent("/api/oven", question)["keep"];
  EXPECT_EQ(keep["title"], "Deck oven");
  EXPECT_EQ(keep["what"], "oven");
  EXPECT_THAT(keep["toml"].get<std::string>(), HasSubstr("learned = ["));
  const auto kept = [&] { return json::parse(client_->Get("/api/equipment")->body)["total"]; };
  EXPECT_EQ(kept(), 0) << "a question changes nothing";
  sent("/api/equipment",
       {{"title", keep["title"]},
        {"what", keep["what"]},
        {"toml", keep["toml"]},
        {"measured", keep["measured"]}},
       201);
  EXPECT_EQ(kept(), 1);
  question.erase("named");
  sent("/api/equipment", {{"title", "Stone oven"}}, 201);
  const json which = sent("/api/oven", question, 400);
  EXPECT_EQ(which["field"], "/named");
  EXPECT_THAT(which["detail"].get<std::string>(), HasSubstr("is needed to keep it"));
}

TEST_F(HouseAsked, WhatIsNoneIsRefusedInOneSentence) {
  sent("/api/equipment", {{"id", "deck"}, {"title", "Deck oven"}}, 201);
  const json unknown = sent("/api/oven", {{"bake", loaf}, {"named", "stone oven"}}, 404);
  EXPECT_EQ(unknown["field"], "/named");
  EXPECT_THAT(unknown["detail"].get<std::string>(), HasSubstr("there is Deck oven"));
  const json twice = sent("/api/equipment", {{"title", "deck oven"}}, 400);
  EXPECT_EQ(twice["field"], "/title");
  const json lines = sent("/api/equipment", {{"title", "Stone"}, {"toml", "holds = 0"}}, 400);
  EXPECT_EQ(lines["field"], "/toml");
  const json what = sent("/api/equipment", {{"title", "Stone"}, {"what", "kettle"}}, 400);
  EXPECT_EQ(what["field"], "/what");
}

}  // namespace
}  // namespace barm::test

#include "server/questions/fields.h"

#include <gmock/gmock.h>

#include "server/door/problem.h"

namespace barm::test {
namespace {

using nlohmann::json;
using server::Fields;
using server::Json;
using server::parse_json;
using server::Refused;

// The problem that something throws.
template <class Do>
json refusal(const Do& something) {
  try {
    something();
  } catch (const Refused& refused) {
    return json::parse(refused.reply.body);
  }
  ADD_FAILURE() << "nothing was refused";
  return {};
}

TEST(ParseJson, TakesWhatJsonIs) {
  EXPECT_EQ(parse_json(R"({"a": [1, 2.5, "é", null, true]})").at("a").size(), 5U);
  EXPECT_EQ(parse_json(R"({"b": 1, "a": 2})").dump(), R"({"b":1,"a":2})") << "the order is kept";
}

TEST(ParseJson, RefusesDoubleKeysAndDeepNests) {
  EXPECT_EQ(refusal([] { (void)parse_json(R"({"a": 1, "b": {"c": 1}, "a": 2})"); }).at("status"),
            400);
  EXPECT_EQ(refusal([] { (void)parse_json(R"({"a": {"a": 1, "a": 2}})"); }).at("status"), 400);
  EXPECT_NO_THROW((void)parse_json(R"({"a": {"a": 1}, "b": {"a": 1}})"));
  EXPECT_EQ(
      refusal([] { (void)parse_json(std::string(33, '[') + std::string(33, ']')); }).at("status"),
      400);
  EXPECT_NO_THROW((void)parse_json(std::string(31, '[') + std::string(31, ']')));
}

TEST(Fields, NameTheFieldThatIsWrong) {
  const Json body = parse_json(R"({"warm": "hot", "a/b~c": 3, "many": 2.5, "none": null})");
  Fields fields(body);
  EXPECT_EQ(refusal([&] { (void)fields.number("warm", 0, 45, "a temperature"); }).at("field"),
            "/warm");
  EXPECT_EQ(refusal([&] { (void)fields.text("a/b~c", "words"); }).at("field"), "/a~1b~0c");
  EXPECT_EQ(refusal([&] { (void)fields.whole("many", 0, 9, "a number"); }).at("field"), "/many");
  EXPECT_EQ(fields.number("none", 0, 1, "x"), std::nullopt);
  EXPECT_EQ(fields.number("left out", 0, 1, "x"), std::nullopt);
}

TEST(Fields, HoldNumbersToTheirRange) {
  const Json body = parse_json(R"({"low": -0.1, "high": 45.1, "edge": 45})");
  Fields fields(body);
  EXPECT_THROW((void)fields.number("low", 0, 45, "x"), Refused);
  EXPECT_THROW((void)fields.number("high", 0, 45, "x"), Refused);
  EXPECT_EQ(fields.number("edge", 0, 45, "x"), 45);
}

TEST(Fields, HoldListsToTheirLength) {
  Json many = Json::array();
  for (int i = 0; i < 101; ++i) many.push_back("2h 41 mm");
  const Json body = {{"many", many}, {"none", Json::array()}, {"mixed", {"a", 1}}};
  Fields fields(body);
  EXPECT_EQ(refusal([&] { (void)fields.texts("many", "x"); }).at("detail"),
            "at most 100 at a time");
  EXPECT_EQ(fields.texts("many", "x", 500).size(), 101U);
  EXPECT_THROW((void)fields.texts("none", "x"), Refused);
  EXPECT_THROW((void)fields.texts("mixed", "x"), Refused);
}

TEST(Fields, RefuseWhatNobodyAskedFor) {
  const Json body = parse_json(R"({"known": 1, "unknown": 2})");
  Fields fields(body, "/with");
  (void)fields.number("known", 0, 1, "x");
  EXPECT_EQ(refusal([&] { fields.check_all_taken(); }).at("field"), "/with/unknown");
}

}  // namespace
}  // namespace barm::test

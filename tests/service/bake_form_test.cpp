#include <gmock/gmock.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "formula/bowl.h"
#include "formula/read.h"
#include "service/bake/form.h"
#include "support/matchers.h"

namespace barm::service {
namespace {

using Json = nlohmann::ordered_json;
using test::FailsWith;
using test::Holds;
using testing::HasSubstr;

std::string file_text(const std::filesystem::path& path) {
  std::ostringstream out;
  out << std::ifstream(path).rdbuf();
  return out.str();
}

TEST(BakeForm, EveryExampleComesBackAsTheSameBake) {
  for (const auto& entry : std::filesystem::directory_iterator(BARM_ROOT "/examples")) {
    if (!entry.path().string().ends_with("-loaf.toml")) continue;
    const std::string text = file_text(entry.path());
    const auto form = bake_form(text, "bake");
    ASSERT_THAT(form, Holds()) << entry.path();
    const auto written = bake_text(*form);
    ASSERT_THAT(written, Holds()) << entry.path();
    const auto before = formula::parse_bake(text, "bake");
    const auto after = formula::parse_bake(written->text, "bake");
    ASSERT_THAT(after, Holds()) << entry.path() << "\n" << written->text;
    const auto one = formula::in_the_bowl(*before);
    const auto other = formula::in_the_bowl(*after);
    ASSERT_THAT(one, Holds());
    ASSERT_THAT(other, Holds());
    ASSERT_EQ(one->lines.size(), other->lines.size());
    for (std::size_t i = 0; i < one->lines.size(); ++i) {
      EXPECT_EQ(one->lines[i].name, other->lines[i].name) << "the order of the file is kept";
      EXPECT_EQ(one->lines[i].plan.si(), other->lines[i].plan.si());
    }
    EXPECT_EQ(one->ph.value(), other->ph.value());
    EXPECT_EQ(before->mixed_at, after->mixed_at);
    EXPECT_EQ(before->stages.size(), after->stages.size());
    // And the object is the same when it is read again; plain members come before tables then.
    using Unordered = nlohmann::json;
    EXPECT_EQ(Unordered::parse(bake_form(written->text, "bake")->dump()),
              Unordered::parse(form->dump()));
  }
}

TEST(BakeForm, KnowsFromWhichMemberEachLineCame) {
  const Json form = Json::parse(
      R"({"name": "x", "bowl": {"a/b": "1 %", "c~d": "2 %"}, "stage": [{"do": "bulk"}]})");
  const auto written = bake_text(form);
  ASSERT_THAT(written, Holds());
  std::istringstream lines(written->text);
  std::size_t at = 0;
  std::map<std::string, std::string> pointers;
  for (std::string line; std::getline(lines, line); ++at) pointers[line] = written->pointers.at(at);
  EXPECT_EQ(at, written->pointers.size());
  EXPECT_EQ(pointers.at("name = \"x\""), "/name");
  EXPECT_EQ(pointers.at("\"a/b\" = \"1 %\""), "/bowl/a~1b");
  EXPECT_EQ(pointers.at("\"c~d\" = \"2 %\""), "/bowl/c~0d");
  EXPECT_EQ(pointers.at("do = \"bulk\""), "/stage/0/do");
}

TEST(BakeForm, LetsNoTextEscapeItsQuotes) {
  const std::string sly = "\"\n[levain]\nstarter = \"x\\\t\x7f \u00e9";
  const auto written = bake_text(Json{{"name", sly}, {sly, "1"}, {"bowl", Json::object()}});
  ASSERT_THAT(written, Holds());
  EXPECT_EQ(written->pointers.size(), 4U) << written->text;  // one line each, a blank and [bowl]
  const auto bake =
      formula::parse_bake("name = " + written->text.substr(7, written->text.find('\n') - 7) +
                              "\n[bowl]\n\"white bread flour\" = \"1 kg\"\nwater = \"600 g\"",
                          "bake");
  ASSERT_THAT(bake, Holds());
  EXPECT_EQ(bake->name, sly);
}

TEST(BakeForm, RefusesWhatTomlDoesNotHave) {
  const auto refused = [](const char* text) {
    const auto written = bake_text(Json::parse(text));
    return written ? "taken" : written.error().where;
  };
  EXPECT_EQ(refused(R"({"bowl": {"water": null}})"), "/bowl/water");
  EXPECT_EQ(refused(R"({"stage": [{"do": "bulk"}, 7]})"), "/stage/1");
  EXPECT_EQ(refused(R"({"order": ["a", {"b": 1}]})"), "/order/1");
  EXPECT_EQ(refused(R"({"a":{"a":{"a":{"a":{"a":{"a":{"a":{"a":1}}}}}}}})"), "/a/a/a/a/a/a/a");
  EXPECT_THAT(bake_text(Json::array()), FailsWith(ErrorCode::bad_input));
}

}  // namespace
}  // namespace barm::service

// The questions of docs/openapi.json, from which the page has its types, against the options of the
// terminal: a field has its option or a reason why not, and an option its field, so that neither
// can learn something and the other not.
#include <gmock/gmock.h>

#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "end_to_end/help.h"

namespace {

using barm::test::Helped;
using nlohmann::json;
using testing::IsEmpty;
using Names = std::set<std::string>;

const json& contract() {
  static const json document = [] {
    std::ifstream file(BARM_ROOT "/docs/openapi.json");
    return json::parse(file);
  }();
  return document;
}

const json& both() { return contract().at("x-terminal"); }

Names keys(const json& of) {
  Names out;
  for (const auto& [key, value] : of.items()) out.insert(key);
  return out;
}

Names without(Names all, const Names& these) {
  for (const std::string& name : these) all.erase(name);
  return all;
}

Names together(Names all, const Names& more) {
  all.insert(more.begin(), more.end());
  return all;
}

struct Question {
  std::string path;
  Names fields;
  json terminal;  ///< command, options, only_here, only_there; or none
};

std::vector<Question> questions() {
  std::vector<Question> out;
  for (const auto& [path, methods] : contract().at("paths").items()) {
    if (!methods.contains("post") || methods["post"].value("tags", json()) != json{"ask"}) continue;
    const json& post = methods["post"];
    const std::string ref =
        post["requestBody"]["content"]["application/json"]["schema"].value("$ref", "");
    const json& schema = contract()["components"]["schemas"].at(ref.substr(ref.rfind('/') + 1));
    out.push_back({path, keys(schema.at("properties")), post.value("x-terminal", json())});
  }
  return out;
}

Names options_of(const json& terminal) {
  Names out = keys(terminal.value("only_there", json::object()));
  for (const auto& [field, option] : terminal.at("options").items()) {
    if (option.is_array())
      out.merge(option.get<Names>());
    else
      out.insert(option);
  }
  return out;
}

TEST(Questions, SayOfEachFieldWhichOptionItIs) {
  const Names everywhere = keys(both().at("fields"));
  Names used;
  for (const Question& question : questions()) {
    SCOPED_TRACE(question.path);
    ASSERT_TRUE(question.terminal.is_object()) << "it has no x-terminal";
    if (question.terminal.contains("none")) continue;
    const Names said = together(keys(question.terminal.at("options")),
                                keys(question.terminal.value("only_here", json::object())));
    EXPECT_THAT(without(without(question.fields, said), everywhere), IsEmpty()) << "no option";
    EXPECT_THAT(without(said, question.fields), IsEmpty()) << "no such field";
    used.merge(without(question.fields, said));
  }
  EXPECT_THAT(without(everywhere, used), IsEmpty()) << "a reason for nothing";
}

TEST(Questions, NameEveryOptionOfTheirCommand) {
  std::map<std::string, Names> named;
  for (const Question& question : questions())
    if (!question.terminal.contains("none"))
      named[question.terminal.at("command")].merge(options_of(question.terminal));
  ASSERT_GT(named.size(), 20U);
  const Names everywhere = keys(both().at("options"));
  for (const auto& [command, options] : named) {
    SCOPED_TRACE("barm " + command);
    const Helped help = barm::test::help_of(command);
    Names there(help.places.begin(), help.places.end());
    for (const std::string& option : help.options)
      if (option.starts_with("--")) there.insert(option);
    EXPECT_THAT(without(without(there, options), everywhere), IsEmpty()) << "no field";
    EXPECT_THAT(without(options, there), IsEmpty()) << "no such option";
  }
}

TEST(Questions, StandBesideEveryCommand) {
  Names beside = keys(both().at("commands"));
  for (const Question& question : questions())
    if (!question.terminal.contains("none")) beside.insert(question.terminal.at("command"));
  Names found;
  barm::test::with_every_command([&](const std::string& command, const Helped& help) {
    if (!help.commands.empty()) return;
    std::string known = command;
    while (!beside.contains(known) && known.find(' ') != std::string::npos)
      known.erase(known.rfind(' '));
    EXPECT_TRUE(beside.contains(known)) << "barm " << command << " has no question";
    found.insert(known);
  });
  EXPECT_THAT(without(beside, found), IsEmpty()) << "no such command";
}

TEST(Questions, GiveAReasonForWhatOnlyOneHas) {
  std::vector<json> reasons = {both().at("fields"), both().at("options"), both().at("commands")};
  for (const Question& question : questions())
    for (const char* key : {"only_here", "only_there"})
      reasons.push_back(question.terminal.value(key, json::object()));
  for (const json& all : reasons)
    for (const auto& [name, reason] : all.items())
      EXPECT_GT(reason.get<std::string>().size(), 10U) << name;
}

}  // namespace

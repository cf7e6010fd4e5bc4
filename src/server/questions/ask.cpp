#include "server/questions/ask.h"

#include <algorithm>
#include <utility>

#include "generated/all_questions.h"
#include "larder/larder.h"
#include "server/door/internal/embedded.h"
#include "server/door/problem.h"
#include "server/questions/asked.h"
#include "service/larder/larder.h"
#include "service/larder/sources.h"

namespace barm::server {

const std::vector<Question>& questions() {
  static const std::vector<Question> all = [] {
    std::vector<Question> out;
    for (GiveQuestions* const some : all_questions) {
      for (Question& one : some()) out.push_back(std::move(one));
    }
    return out;
  }();
  return all;
}

const Question* question(std::string_view name) {
  const auto& all = questions();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Question& one) { return one.name == name; });
  return found == all.end() ? nullptr : &*found;
}

Reply ask(const Question& question, const Json& body, const AskContext& context) {
  Fields fields(body);
  // A misspelt field would be a question never asked: it is refused even when the rest is answered.
  Reply reply = question.answer(fields, context);
  fields.check_all_taken();
  return reply;
}

Reply larder_reply(const std::string& words) {
  return answered(service::to_list(got(service::larder_with(words))));
}

Reply ingredient_reply(const std::string& key) {
  const auto& all = larder::all();
  const auto found = std::find_if(
      all.begin(), all.end(), [&](const larder::Ingredient& one) { return one.key == key; });
  if (found == all.end())
    throw Refused{problem(Error{ErrorCode::not_found, "", "the larder has no such ingredient"})};
  return answered(service::to_json(std::vector<larder::Ingredient>{*found}));
}

Reply sources_reply(const std::string& words) { return reply_of(service::sources_of(words)); }

Reply examples_reply() {
  nlohmann::json out = {{"schema", "barm.examples/1"}, {"examples", nlohmann::json::array()}};
  for (const internal::Embedded& one : internal::examples()) {
    const AskedText asked{std::string(one.bytes), "", {}};
    const formula::Bake bake = bake_of(asked);
    const std::string_view key = one.path.substr(1, one.path.rfind('.') - 1);
    out["examples"].push_back(
        {{"key", key}, {"name", bake.name}, {"note", bake.note}, {"text", asked.text}});
  }
  return answered(out);
}

}  // namespace barm::server

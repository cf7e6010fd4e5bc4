// Any bytes as the body of a request: they are read or refused in words, and a bake that can be
// read comes back the same from its text and its object.
#include <cstddef>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <string_view>

#include "base/require.h"
#include "formula/bowl.h"
#include "server/door/problem.h"
#include "server/questions/asked_bake.h"
#include "server/questions/fields.h"
#include "service/bake/form.h"

namespace {

using barm::require;

void hold_problem(const barm::server::Reply& reply) {
  const auto problem = nlohmann::json::parse(reply.body, nullptr, false);
  require(problem.is_object(), "a problem is JSON");
  require(!problem.at("detail").get<std::string>().empty(), "a refusal has words");
  require(problem.at("status") == reply.status, "a problem says its status");
  require(reply.status >= 400 && reply.status < 500, "what was sent is to blame");
}

void there_and_back(const std::string& text) {
  const auto form = barm::service::bake_form(text, "bake");
  require(form.has_value(), "what is a bake has a form");
  const auto written = barm::service::bake_text(*form);
  require(written.has_value(), "a form can be written");
  const auto again = barm::service::bake_form(written->text, "bake");
  require(again.has_value(), "what was written is a bake");
}

void ask(std::string_view body) {
  const barm::server::Json json = barm::server::parse_json(body);
  barm::server::Fields fields(json);
  const barm::server::StoredBakes none{
      .bake = [](const std::string&) { return barm::formula::Bake{}; },
      .text = [](const std::string&) { return std::string(); },
      .at_home = [](barm::formula::Bake bake) { return bake; }};
  const auto asked = barm::server::asked_text(fields, "bake", "bake_id", none);
  const auto bake = barm::server::bake_of(asked);
  (void)barm::server::asked_bake(fields, none);
  (void)fields.number("temperature_C", 0, 45, "a temperature");
  (void)fields.whole("draws", 20, 20000, "a number");
  fields.check_all_taken();
  require(barm::formula::in_the_bowl(bake).has_value(), "what can be read can be weighed");
  there_and_back(asked.text);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    ask({reinterpret_cast<const char*>(data), size});
  } catch (const barm::server::Refused& refused) {
    hold_problem(refused.reply);
  }
  return 0;
}

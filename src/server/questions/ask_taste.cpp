// The questions about what of a drink comes through.
#include <nlohmann/json.hpp>

#include "estimation/belief.h"
#include "generated/all_questions.h"
#include "server/door/problem.h"
#include "server/questions/asked_bake.h"
#include "service/taste/taste.h"

namespace barm::server {

namespace {

std::string taste_field(const std::string& where) {
  if (where.starts_with("bake")) return "/bake";
  for (const char* name :
       {"within", "chance", "noticed", "money", "by", "tasted", "drink", "loss"}) {
    if (where != name) continue;
    const std::string field = name;
    if (field == "within") return "/within_h";
    return field == "loss" ? "/loss_of_dough" : "/" + field;
  }
  return "";
}

template <class Answer>
Reply taste_reply(const Result<Answer>& result) {
  if (!result) throw Refused{problem(result.error(), taste_field(result.error().where))};
  return answered(service::to_json(*result));
}

/// A bake, how its loaves are baked, and the doughs and tasters to imagine.
class AskedTaste {
 public:
  AskedTaste(Fields& fields, const AskContext& context)
      : bake(asked_bake(fields, context.stored)),
        start_(asked_start(fields, bake, context.stored, context.watch)) {
    options.draws = static_cast<int>(
        fields
            .whole("draws", 20, 20000, "how many doughs and tasters to simulate, from 20 to 20000")
            .value_or(200));
    options.seed = static_cast<unsigned long long>(
        fields.whole("seed", 0, 1'000'000'000, "a whole number from 0 on").value_or(1));
    options.threads = context.threads;
    options.cancelled = context.watch.cancelled;
    options.prior = &start_.prior;
    oven.loss =
        fields.number("loss_of_dough", 0, 0.9, "a share of the dough's weight such as 0.14");
    oven.crust_share = fields.number("crust_of_dough", 0, 1, "a share of the dough such as 0.25");
  }

  AskedTaste(const AskedTaste&) = delete;
  AskedTaste& operator=(const AskedTaste&) = delete;

  const formula::Bake bake;
  forecast::Options options;
  taste::OvenSays oven;

 private:
  service::Begun start_;
};

Reply ask_through(Fields& fields, const AskContext& context) {
  const AskedTaste asked(fields, context);
  service::ThroughRequest request{asked.oven, asked.options, {}};
  if (fields.find("tasted") != nullptr)
    request.tasted =
        fields.texts("tasted", "a list of what panels found, such as \"9 of 12 right\"");
  return taste_reply(service::comes_through(asked.bake, request));
}

Reply ask_more(Fields& fields, const AskContext& context) {
  const AskedTaste asked(fields, context);
  service::MoreTasteRequest request;
  request.question = {
      asked.oven, asked.options, fields.text("drink", "a drink of this bowl").value_or("")};
  request.money = fields.number("money", 0, 1e6, "how much more a loaf may cost, such as 0.2");
  request.by = fields.text("by", "hours after mixing such as 30h, or a local time such as 08:00")
                   .value_or("");
  return taste_reply(service::more_taste(asked.bake, request));
}

Reply ask_across(Fields& fields, const AskContext& context) {
  const AskedTaste asked(fields, context);
  taste::CorridorQuestion question;
  question.oven = asked.oven;
  question.options = asked.options;
  question.drink = fields.text("drink", "a drink of this bowl").value_or("");
  question.within = fields.number("within_h", 0, 336, "hours such as 14").value_or(14) * hour;
  question.chance =
      fields.number("chance", 0, 1, "a chance from 0 to 1, such as 0.8").value_or(question.chance);
  question.noticed =
      fields.number("noticed", 0, 1, "a share of tasters such as 0.5").value_or(question.noticed);
  return taste_reply(service::taste_across(asked.bake, question));
}

}  // namespace

std::vector<Question> taste_questions() {
  return {
      {.name = "comes-through", .heavy = true, .follows_from_itself = true, .answer = ask_through},
      {.name = "more-taste",
       .heavy = true,
       .as_a_job = true,
       .follows_from_itself = true,
       .answer = ask_more},
      {.name = "taste-across",
       .heavy = true,
       .as_a_job = true,
       .follows_from_itself = true,
       .answer = ask_across},
  };
}

}  // namespace barm::server

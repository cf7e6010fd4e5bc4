// The questions about a bake, and those without one.
#include <algorithm>
#include <utility>

#include "generated/all_questions.h"
#include "server/door/problem.h"
#include "server/questions/asked.h"
#include "service/bake/bowl.h"
#include "service/bake/foresee.h"
#include "service/bake/form.h"
#include "service/bake/levain.h"
#include "service/bake/match.h"
#include "service/bake/reach.h"
#include "service/bake/solve.h"
#include "service/bake/swap.h"
#include "service/bake/thin.h"
#include "service/daybook/kept_culture.h"
#include "service/testbake/testbake.h"

namespace barm::server {

namespace {

Reply ask_bake(Fields& fields, const AskContext& context) {
  const AskedText asked = asked_text(fields, "bake", "bake_id", context.stored);
  const formula::Bake bake = bake_of(asked);
  const auto form = service::bake_form(asked.text, "bake");
  Json out;
  out["schema"] = "barm.bake/1";
  out["name"] = bake.name;
  out["text"] = asked.text;
  out["form"] = got(form);
  Reply reply;
  reply.body = out.dump(-1, ' ', false, Json::error_handler_t::replace);
  return reply;
}

Reply ask_bowl(Fields& fields, const AskContext& context) {
  return reply_of(service::bowl(asked_bake(fields, context.stored)));
}

Reply ask_mend(Fields& fields, const AskContext& context) {
  const auto bowl = service::bowl(asked_bake(fields, context.stored));
  nlohmann::json out = service::to_json(got(bowl));
  out["schema"] = "barm.mend/1";
  out["mend"] = out["bowl"]["mend"];
  return answered(out);
}

Reply ask_foresee(Fields& fields, const AskContext& context) {
  const Asked asked(fields, context);
  return asked.reply(Result<service::ForeseeAnswer>(asked.foreseen()));
}

Reply ask_reach(Fields& fields, const AskContext& context) {
  const Asked asked(fields, context);
  const std::string drink = fields.text("drink", "a drink of this bowl").value_or("");
  const double within = fields.number("within_h", 0, 336, "hours such as 14").value_or(14);
  const double chance =
      fields.number("chance", 0, 1, "a chance from 0 to 1, such as 0.8").value_or(0.8);
  return asked.reply(
      service::reach(asked.batch.bake, drink, within * hour, Probability(chance), asked.options));
}

Reply ask_match(Fields& fields, const AskContext& context) {
  const formula::Bake bake = asked_bake(fields, context.stored);
  return reply_of(service::match(bake, asked_bake(fields, "like", "like_id", context.stored)));
}

Reply ask_solve(Fields& fields, const AskContext& context) {
  const auto aims = fields.texts("aims", "a list of aims such as \"real water=70 %\"");
  const auto free = fields.texts("free", "a list of ingredients whose weight may change");
  return reply_of(service::solve(asked_bake(fields, context.stored), aims, free));
}

Reply ask_swap(Fields& fields, const AskContext& context) {
  const std::string what = "the name of a drink";
  const auto drink = fields.needed(fields.text("drink", what), "drink", "needs " + what);
  const std::string share_words = "the drink's share of drink and water together, from 0 to 1";
  const auto share = fields.needed(fields.number("share_of_liquid", 0, 1, share_words),
                                   "share_of_liquid",
                                   "needs " + share_words);
  const AskedText asked = asked_text(fields, "bake", "bake_id", context.stored);
  (void)bake_of(asked);  // an error of the bake has its place
  const auto swapped = service::swap_drink(asked.text, drink, share);
  Reply reply;
  reply.body = service::to_json(got(swapped)).dump(-1, ' ', false, Json::error_handler_t::replace);
  return reply;
}

Reply ask_thin(Fields& fields, const AskContext&) {
  const auto drink = fields.needed(
      fields.text("drink", "a drink of the larder"), "drink", "needs a drink of the larder");
  const auto strength = fields.needed(fields.text("strength", "a strength such as 10 % vol"),
                                      "strength",
                                      "needs a strength such as 10 % vol");
  const auto need = fields.needed(
      fields.number("need_g", 0, 1e6, "grams such as 1000"), "need_g", "needs grams such as 1000");
  return reply_of(service::thin(drink, strength, need * gram));
}

Reply ask_levain(Fields& fields, const AskContext& context) {
  service::LevainRequest request;
  const auto take = [&](const char* key, std::string& into, const char* what) {
    if (auto text = fields.text(key, what)) into = std::move(*text);
  };
  take("starter", request.starter, "a starter of the larder");
  take("flour", request.flour, "a flour of the larder");
  take("feed", request.ratio, "ripe:flour:water, such as 1:2:1");
  take("fed_at", request.fed_at, "a local time such as 2026-11-27T22:00");
  take("peak_at", request.peak_at, "a local time such as 2026-11-28T06:00");
  if (const auto need = fields.number("need_g", 0, 1e6, "grams such as 300"))
    request.wanted = *need * gram;
  if (const auto peak = fields.number("peak_in_h", 0, 336, "hours such as 8"))
    request.peak_in = *peak * hour;
  const forecast::Options options = options_of(fields, context);
  if (options.temperature) request.temperature = *options.temperature;
  return reply_of(service::levain(request, options));
}

Reply ask_culture(Fields& fields, const AskContext& context) {
  const std::string what = "the id of a culture in the daybook";
  const auto id = fields.needed(fields.text("culture_id", what), "culture_id", "needs " + what);
  return answered(service::to_json(context.stored.culture(id, fields.yes("anew"), context.watch)));
}

struct Axis {
  testbakes::Upward up;
  double low, high;    ///< that may be
  double least, most;  ///< when nothing is said
  const char* example;
};

constexpr Axis axes[] = {
    {testbakes::Upward::temperature, 0, 45, 16, 32, "degrees such as 18"},
    {testbakes::Upward::starter, 0.005, 1, 0.05, 0.4, "a share of flour such as 0.1"},
    {testbakes::Upward::time, 0.5, 336, 2, 36, "hours such as 6"},
};

Reply ask_map(Fields& fields, const AskContext& context) {
  testbakes::MapQuestion question;
  const std::string what = "temperature, starter or time";
  const std::string up = fields.text("up", what).value_or("temperature");
  const auto* const axis = std::find_if(std::begin(axes), std::end(axes), [&](const Axis& one) {
    return testbakes::name(one.up) == up;
  });
  if (axis == std::end(axes)) refuse_field("/up", "needs " + what);
  question.upward = axis->up;
  question.least =
      fields.number("from", axis->low, axis->high, axis->example).value_or(axis->least);
  question.most = fields.number("to", axis->low, axis->high, axis->example).value_or(axis->most);
  question.drink = fields.text("drink", "a drink of this bowl").value_or("");
  question.within = fields.number("within_h", 0.5, 336, "hours such as 14").value_or(14) * hour;
  question.draws = static_cast<int>(
      fields.whole("draws", 20, 5000, "how many doughs to simulate, from 20 to 5000")
          .value_or(200));
  question.seed = static_cast<unsigned long long>(
      fields.whole("seed", 0, 1'000'000'000, "a whole number from 0 on").value_or(1));
  question.threads = context.threads;
  question.cancelled = context.watch.cancelled;
  const formula::Bake bake = asked_bake(fields, context.stored);
  const auto start = asked_start(fields, bake, context.stored, context.watch);
  question.prior = &start.prior;
  return reply_from(start.culture, service::testbake_map(bake, question));
}

Reply ask_taste(Fields& fields, const AskContext&) {
  service::TasteRequest request;
  const auto count = [&](const char* key, int usual) {
    return static_cast<int>(fields.whole(key, 0, 1000, "a whole number of people").value_or(usual));
  };
  const auto chance = [&](const char* key, double usual) {
    return fields.number(key, 0, 1, "a chance from 0 to 1").value_or(usual);
  };
  request.tasters = count("tasters", request.tasters);
  request.right = count("right", request.right);
  request.tell = chance("tell", request.tell);
  request.power = chance("power", request.power);
  request.alpha = chance("alpha", request.alpha);
  request.seed = static_cast<unsigned long long>(
      fields.whole("seed", 0, 1'000'000'000, "a whole number from 0 on").value_or(1));
  request.a = fields.text("a", "the name of a dough").value_or(request.a);
  request.b = fields.text("b", "the name of the other").value_or(request.b);
  return reply_of(service::testbake_taste(request));
}

}  // namespace

std::vector<Question> bake_questions() {
  return {
      {.name = "bake", .answer = ask_bake},
      {.name = "bowl", .answer = ask_bowl},
      {.name = "mend", .answer = ask_mend},
      {.name = "foresee",
       .heavy = true,
       .as_a_job = true,
       .follows_from_itself = true,
       .answer = ask_foresee},
      {.name = "reach",
       .heavy = true,
       .as_a_job = true,
       .follows_from_itself = true,
       .answer = ask_reach},
      {.name = "match", .answer = ask_match},
      {.name = "solve", .answer = ask_solve},
      {.name = "swap", .answer = ask_swap},
      {.name = "thin", .answer = ask_thin},
      {.name = "levain",
       .heavy = true,
       .as_a_job = true,
       .follows_from_itself = true,
       .answer = ask_levain},
      {.name = "culture", .heavy = true, .as_a_job = true, .answer = ask_culture},
      {.name = "map",
       .heavy = true,
       .as_a_job = true,
       .follows_from_itself = true,
       .answer = ask_map},
      {.name = "taste", .answer = ask_taste},
  };
}

}  // namespace barm::server

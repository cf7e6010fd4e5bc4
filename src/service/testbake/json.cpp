#include <cmath>
#include <nlohmann/json.hpp>

#include "service/internal/json_parts.h"
#include "service/internal/object.h"
#include "service/testbake/testbake.h"

namespace barm::service {

using internal::hours;
using internal::object;
using nlohmann::json;

namespace {

json testbake_document(const char* kind) {
  return object({{"schema", std::string("barm.testbake-") + kind + "/1"}});
}

json number(double value) { return std::isfinite(value) ? json(value) : json(nullptr); }

json head(const testbakes::TestBake& test) {
  return object({{"name", test.name},
                 {"question", test.question},
                 {"base", test.base.name},
                 {"days", test.days},
                 {"jars", test.jars},
                 {"within_h", test.within.in(hour)}});
}

json differences(const formula::Bowl& here, const formula::Bowl& there) {
  json out = json::array();
  for (const auto& d : testbakes::differences(here, there)) {
    out.push_back(object({{"what", d.what},
                          {"unit", d.unit},
                          {"here", d.here},
                          {"there", d.there},
                          {"words", testbakes::in_words(d)}}));
  }
  return out;
}

const testbakes::Rival* control(const std::vector<testbakes::Rival>& rivals) {
  for (const auto& rival : rivals) {
    if (rival.plain) return &rival;
  }
  return nullptr;
}

json stock(const testbakes::Stock& s) {
  return object({{"strength_percent", s.strength.percent()},
                 {"salt_g", s.salt.in(gram)},
                 {"water_g", s.water.in(gram)},
                 {"dose_g", s.dose.in(gram)},
                 {"in_two_steps", s.in_two_steps},
                 {"first_salt_g", s.first_salt.in(gram)},
                 {"first_water_g", s.first_water.in(gram)},
                 {"from_first_g", s.from_first.in(gram)}});
}

json rival_body(const testbakes::Rival& rival, const testbakes::Rival* plain) {
  json lines = json::array();
  for (const auto& line : rival.bowl.lines)
    lines.push_back(object({{"ingredient", line.name}, {"mass_g", line.actual.in(gram)}}));
  json doses;
  const auto amounts = testbakes::doses_of(rival);
  for (const auto cause : testbakes::all_causes) {
    doses[std::string(testbakes::name(cause))] = object(
        {{"dose", amounts[static_cast<std::size_t>(cause)]}, {"unit", testbakes::unit(cause)}});
  }
  json alike = json::array();
  for (const auto what : rival.alike) alike.push_back(testbakes::name(what));
  json stocks = json::array();
  for (const auto& s : rival.stocks) stocks.push_back(stock(s));
  json out = object({{"name", rival.name},
                     {"made", rival.words},
                     {"plain", rival.plain},
                     {"matched_in", alike},
                     {"lines", lines},
                     {"dough_g", rival.bowl.dough.in(gram)},
                     {"ph_at_mixing", rival.bowl.ph.value()},
                     {"doses", doses},
                     {"stocks", stocks},
                     {"notes", rival.notes}});
  out["differs_from_plain"] =
      plain == nullptr || plain == &rival ? json::array() : differences(rival.bowl, plain->bowl);
  return out;
}

json rivals_body(const std::vector<testbakes::Rival>& rivals) {
  json out = json::array();
  for (const auto& rival : rivals) out.push_back(rival_body(rival, control(rivals)));
  return out;
}

const char* telling(testbakes::Telling telling) {
  switch (telling) {
    case testbakes::Telling::apart:
      return "apart";
    case testbakes::Telling::poorly:
      return "poorly";
    case testbakes::Telling::hardly:
      return "hardly";
    case testbakes::Telling::not_at_all:
      return "not_at_all";
    case testbakes::Telling::not_varied:
      return "not_varied";
  }
  return "unknown";
}

json told_apart_body(const testbakes::ToldApart& told) {
  json causes = json::array();
  for (const auto& one : told.told) {
    json with = json::array();
    for (const auto cause : one.with) with.push_back(testbakes::name(cause));
    causes.push_back(object({{"cause", testbakes::name(one.cause)},
                             {"telling", telling(one.telling)},
                             {"variance_inflation", number(one.variance_inflation)},
                             {"with", with}}));
  }
  return object(
      {{"rank", told.rank}, {"causes", causes}, {"words", told.words}, {"working", told.working}});
}

}  // namespace

json to_json(const TestBakePlan& answer) {
  json out = testbake_document("plan");
  out.update(head(answer.test));
  if (answer.test.seed) out["seed"] = *answer.test.seed;
  out["doughs"] = rivals_body(answer.rivals);
  out["jars_placed"] = json::array();
  for (const auto& jar : answer.jars) {
    out["jars_placed"].push_back(object({{"day", answer.test.days[jar.day]},
                                         {"place", jar.place},
                                         {"label", jar.label},
                                         {"dough", answer.rivals[jar.dough].name},
                                         {"repeat", jar.repeat}}));
  }
  out["cautions"] = answer.cautions;
  return out;
}

json to_json(const TestBakeBefore& answer) {
  json out = testbake_document("before");
  out.update(head(answer.test));
  out["culture"] = answer.culture;
  out["doughs"] = rivals_body(answer.rivals);
  for (std::size_t i = 0; i < answer.expected.size(); ++i) {
    const Expected& expected = answer.expected[i];
    out["doughs"][i]["expected"] = object({{"p10_h", hours(expected.ready.p10)},
                                           {"p50_h", hours(expected.ready.p50)},
                                           {"p90_h", hours(expected.ready.p90)},
                                           {"chance_in_time", expected.in_time.value()}});
  }
  out["draws"] = answer.draws;
  out["told_apart"] = told_apart_body(answer.told_apart);
  out["answered"] = json::array();
  for (const auto& one : answer.answered) {
    out["answered"].push_back(object({{"cause", testbakes::name(one.cause)},
                                      {"largest_dose", one.largest_dose},
                                      {"unit", testbakes::unit(one.cause)},
                                      {"speed_left", one.speed_left},
                                      {"cannot_bite", one.cannot_bite},
                                      {"words", one.words}}));
  }
  out["difference"] = answer.difference;
  out["chance_as_planned"] = answer.chance_as_planned;
  out["needed"] = json::array();
  for (const auto& way : answer.needed)
    out["needed"].push_back(
        object({{"days", way.days}, {"jars", way.jars}, {"chance", way.chance}}));
  return out;
}

namespace {

const char* finding(testbakes::Finding finding) {
  switch (finding) {
    case testbakes::Finding::acts:
      return "acts";
    case testbakes::Finding::does_not:
      return "does_not";
    case testbakes::Finding::not_decided:
      return "not_decided";
  }
  return "unknown";
}

json cause_body(const testbakes::CauseFound& found) {
  return object({{"cause", testbakes::name(found.prior.cause)},
                 {"unit", testbakes::unit(found.prior.cause)},
                 {"finding", finding(found.finding)},
                 {"weight", found.weight},
                 {"weight_before", found.prior.chance},
                 {"what_if", found.prior.what_if},
                 {"can_be_named", found.can_be_named},
                 {"shown_by_jars", found.shown},
                 {"half_speed_dose", found.half_speed_dose},
                 {"half_low", found.half_low},
                 {"half_high", found.half_high},
                 {"hours", found.hours},
                 {"hours_low", found.hours_low},
                 {"hours_high", found.hours_high},
                 {"at_least", found.at_least},
                 {"words", found.words}});
}

json verdict_body(const testbakes::Verdict& verdict) {
  json causes = json::array();
  for (const auto& found : verdict.causes) causes.push_back(cause_body(found));
  json combinations = json::array();
  for (const auto& one : verdict.hypotheses) {
    json acting = json::array();
    for (std::size_t c = 0; c < verdict.causes.size(); ++c)
      if (((one.acting >> c) & 1U) != 0)
        acting.push_back(testbakes::name(verdict.causes[c].prior.cause));
    combinations.push_back(
        object({{"acting", acting}, {"weight", one.weight}, {"log_evidence", one.log_evidence}}));
  }
  return object({{"sentence", verdict.sentence},
                 {"causes", causes},
                 {"combinations", combinations},
                 {"stray_sd_ratio", verdict.shape},
                 {"beyond_the_model", verdict.beyond},
                 {"odd_readings", verdict.odd}});
}

}  // namespace

json to_json(const TestBakeAfter& answer) {
  json out = testbake_document("after");
  out.update(head(answer.test));
  out["verdict"] = verdict_body(answer.verdict);
  out["told_apart"] = told_apart_body(answer.verdict.told_apart);
  out["doughs"] = rivals_body(answer.rivals);
  out["control"] = answer.rivals[answer.control].name;
  out["jars_read"] = json::array();
  std::size_t look = 0;
  for (const auto& jar : answer.verdict.observed) {
    json looks = json::array();
    for (const auto& at : jar.looks)
      looks.push_back(object({{"t_h", at.hours},
                              {"ratio", at.ratio},
                              {"fitted_ratio", answer.verdict.fitted[look++]}}));
    const auto rise = testbakes::rise_of(jar);
    out["jars_read"].push_back(object({{"day", answer.test.days[jar.day]},
                                       {"dough", answer.rivals[jar.dough].name},
                                       {"repeat", jar.repeat},
                                       {"looks", looks},
                                       {"risen", rise.risen},
                                       {"lag_h", rise.lag},
                                       {"speed_per_h", rise.speed},
                                       {"peak_ratio", rise.peak},
                                       {"peak_seen", rise.peak_seen}}));
  }
  out["compared"] = json::array();
  for (const auto& comparison : answer.comparisons) {
    json contrasts = json::array();
    for (const auto& one : comparison.contrasts) {
      contrasts.push_back(object({{"dough", answer.rivals[one.dough].name},
                                  {"difference", one.difference},
                                  {"low", one.low},
                                  {"high", one.high},
                                  {"p", one.p},
                                  {"clear", one.clear()}}));
    }
    json unseen = json::array();
    for (const auto& one : comparison.unseen)
      unseen.push_back(object({{"dough", answer.rivals[one.dough].name}, {"words", one.words}}));
    out["compared"].push_back(object({{"what", comparison.what},
                                      {"scatter", comparison.scatter},
                                      {"freedom", comparison.freedom},
                                      {"contrasts", contrasts},
                                      {"unseen", unseen}}));
  }
  out["dose_curves"] = json::array();
  for (const auto& one : answer.dose_curves) {
    out["dose_curves"].push_back(object({{"cause", testbakes::name(one.cause)},
                                         {"unit", testbakes::unit(one.cause)},
                                         {"half_speed_dose", one.curve.half_speed_dose},
                                         {"half_low", one.curve.half_low},
                                         {"half_high", one.curve.half_high},
                                         {"power", one.curve.power},
                                         {"top", one.curve.top},
                                         {"dose", one.dose},
                                         {"speed", one.speed}}));
  }
  return out;
}

json to_json(const TestBakeNext& answer) {
  json out = testbake_document("next");
  out.update(head(answer.test));
  out["after"] = answer.after;
  out["so_far"] = answer.so_far;
  out["candidates"] = json::array();
  for (const auto& one : answer.candidates) {
    out["candidates"].push_back(
        object({{"made", one.recipe.words},
                {"settles", one.settles},
                {"nats", one.nats},
                {"drink_price", one.price ? json(*one.price) : json(nullptr)},
                {"currency", one.currency},
                {"settles_per_money",
                 one.settles_per_money ? json(*one.settles_per_money) : json(nullptr)},
                {"baked", one.baked},
                {"reason", one.reason}}));
  }
  return out;
}

json to_json(const TestBakeMap& answer) {
  json out = testbake_document("map");
  const auto& q = answer.map.question;
  const auto& field = answer.map.field;
  out["name"] = answer.name;
  out["culture"] = answer.culture;
  out["drink"] = answer.map.drink;
  out["share"] = object({{"least", 0.0}, {"most", answer.map.room}, {"cells", field.columns}});
  out["up"] = object({{"what", testbakes::name(q.upward)},
                      {"least", q.least},
                      {"most", q.most},
                      {"cells", field.rows}});
  out["within_h"] = q.upward == testbakes::Upward::time ? json(nullptr) : json(q.within.in(hour));
  out["draws"] = q.draws;
  out["chance"] = field.chance;
  out["error"] = field.error;
  out["now"] = object({{"share", answer.map.now_share},
                       {"up", answer.map.now_up},
                       {"chance", answer.map.chance_now}});
  out["contours"] = json::array();
  for (const auto& line : answer.contours) {
    json points = json::array();
    for (const auto& p : line.points) points.push_back({p.column, p.row});
    out["contours"].push_back(
        object({{"level", line.level}, {"closed", line.closed}, {"points", points}}));
  }
  return out;
}

json to_json(const TasteAnswer& answer) {
  json out = testbake_document("taste");
  const TasteRequest& request = answer.request;
  out["a"] = request.a;
  out["b"] = request.b;
  out["tasters"] = request.tasters;
  out["share_who_can_tell"] = request.tell;
  out["power_wanted"] = request.power;
  out["alpha"] = request.alpha;
  out["tasters_needed"] = answer.tasters_needed;
  out["power"] = answer.power;
  out["right_needed"] = answer.right_needed;
  out["servings"] = json::array();
  for (const auto& serving : answer.servings) {
    out["servings"].push_back(object({{"taster", serving.taster},
                                      {"order", serving.order()},
                                      {"labels", serving.label},
                                      {"odd", serving.odd}}));
  }
  out["result"] = nullptr;
  if (answer.result) {
    const auto& r = *answer.result;
    out["result"] = object({{"right", r.right},
                            {"p_value", r.p_value},
                            {"can_tell", r.can_tell},
                            {"tell", r.tell},
                            {"tell_low", r.tell_low},
                            {"tell_high", r.tell_high},
                            {"words", r.words}});
  }
  out["cautions"] = answer.cautions;
  return out;
}

}  // namespace barm::service

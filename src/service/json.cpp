#include "service/json.h"

#include <nlohmann/json.hpp>

#include "service/bake/aim.h"
#include "service/bake/head.h"
#include "service/bake/prepared.h"
#include "service/bake/why.h"
#include "service/internal/json_parts.h"
#include "service/now.h"
#include "service/words.h"

namespace barm::service {

using internal::hours;
using internal::spread;
using nlohmann::json;

namespace {

json document(const char* kind) { return {{"schema", std::string("barm.") + kind + "/1"}}; }

json bowl_body(const BowlAnswer& answer) {
  const formula::Bowl& bowl = answer.bowl;
  json lines = json::array();
  for (const formula::Weighed& line : bowl.lines) {
    lines.push_back({{"ingredient", line.name},
                     {"plan_g", line.plan.in(gram)},
                     {"actual_g", line.actual.in(gram)},
                     {"volume_mL", line.volume.in(millilitre)},
                     {"of_flour", line.share.value()}});
  }
  json mend = {{"needed", answer.mend.needed},
               {"possible", answer.mend.possible},
               {"words", answer.mend.words}};
  mend["extra_dough_g"] = answer.mend.extra_dough.in(gram);
  mend["pour_less"] = nullptr;
  if (const auto& less = answer.mend.pour_less) {
    mend["pour_less"] = {{"ingredient", less->ingredient},
                         {"mass_g", less->by.in(gram)},
                         {"leaves_g", less->leaves.in(gram)}};
  }
  mend["add"] = json::array();
  for (const auto& addition : answer.mend.add) {
    mend["add"].push_back(
        {{"ingredient", addition.ingredient}, {"mass_g", addition.mass.in(gram)}});
  }
  return {{"name", answer.bake.name},
          {"pieces", bowl.pieces},
          {"piece_g", bowl.piece.in(gram)},
          {"lines", lines},
          {"dough_g", bowl.dough.in(gram)},
          {"flour_g", bowl.flour.in(gram)},
          {"percent_of_g", bowl.percent_of.in(gram)},
          {"percent_of", bowl.percent_of_what()},
          {"liquid_of_flour", bowl.liquid_hydration()},
          {"real_water_of_flour", bowl.real_hydration()},
          {"ethanol_g", bowl.ethanol.in(gram)},
          {"ethanol_of_dough", bowl.ethanol_of_dough().value()},
          {"ethanol_in_water_g_per_L", bowl.ethanol_in_water().in(gram / litre)},
          {"liquid_strength_percent_vol", bowl.strength_of_liquid().percent()},
          {"salt_g", bowl.salt.in(gram)},
          {"salt_in_water_g_per_L", bowl.salt_in_water().in(gram / litre)},
          {"sugar_in_water_g_per_L", bowl.sugar_in_water().in(gram / litre)},
          {"ph_at_mixing", bowl.ph.value()},
          {"total_sulphite_mg_per_kg", bowl.total_sulphite.in(milligram) / bowl.dough.in(kilogram)},
          {"free_sulphite_mg_per_kg", bowl.free_sulphite.in(milligram) / bowl.dough.in(kilogram)},
          {"sorbate_mg_per_kg", bowl.sorbate.in(milligram) / bowl.dough.in(kilogram)},
          {"carbon_dioxide_g", bowl.carbon_dioxide.in(gram)},
          {"contraction_mL", bowl.contraction.in(millilitre)},
          {"water_activity", bowl.water_activity},
          {"mend", mend},
          {"to_prepare", to_json(to_prepare(answer.bake, bowl))},
          {"cautions", answer.cautions},
          {"doubts", answer.doubts}};
}

void add_solution(json& out, const formula::Bake& bake, const formula::Solution& solution) {
  out["met"] = solution.met;
  out["conflicts"] = solution.conflicts;
  out["working"] = solution.working;
  out["masses"] = json::array();
  for (std::size_t i = 0; i < solution.masses.size(); ++i) {
    const std::string name = i < bake.bowl.size() ? bake.bowl[i].ingredient.name : "water";
    out["masses"].push_back({{"ingredient", name}, {"mass_g", solution.masses[i].in(gram)}});
  }
}

std::string key(kinetics::Factor factor) { return std::string(forecast::name(factor)); }

}  // namespace

json to_json(const BowlAnswer& answer) {
  json out = document("bowl");
  out["bowl"] = bowl_body(answer);
  return out;
}

json to_json(const ForeseeAnswer& answer) {
  const forecast::Forecast& forecast = answer.forecast;
  json out = document("foresee");
  out["schema"] = "barm.foresee/2";
  out["bowl"] = bowl_body(answer.bowl);
  const time::WallClock clock = clock_of(answer.bowl.bake);
  out["mixed_at"] = answer.bowl.bake.mixed_at ? json(*answer.bowl.bake.mixed_at) : json(nullptr);
  out["temperature_C"] = answer.temperature.celsius();
  out["target_volume_ratio"] = forecast.target;
  out["horizon_h"] = forecast.horizon.in(hour);
  out["draws"] = forecast.draws;
  out["ready"] = spread(forecast.ready);
  if (forecast.ready.p50) out["ready"]["p50_at"] = clock.iso(*forecast.ready.p50);
  out["risen_by_a_fifth"] = spread(forecast.fifth);
  out["past_its_best"] = spread(forecast.past);
  out["chance_never"] = forecast.never.value();
  out["look_again_h"] = hours(answer.look_again);
  json band = json::array();
  for (const forecast::Band& at : forecast.band) {
    band.push_back(
        {{"t_h", at.hours}, {"p10_ratio", at.p10}, {"p50_ratio", at.p50}, {"p90_ratio", at.p90}});
  }
  out["rise"] = band;
  json costs = json::array();
  for (const forecast::Hindrance& hindrance : answer.in_the_way.hindrances) {
    costs.push_back({{"factor", key(hindrance.factor)},
                     {"costs_h", hindrance.costs.in(hour)},
                     {"said_h", hindrance.said.in(hour)}});
  }
  out["in_the_way"] = {{"costs", costs},
                       {"as_it_is_h", hours(answer.in_the_way.as_it_is)},
                       {"bare_h", hours(answer.in_the_way.bare)},
                       {"plain_h", hours(answer.in_the_way.plain)},
                       {"at_least", answer.in_the_way.at_least}};
  add_limits(out, forecast, answer.why_never, clock);
  add_timeline(out, forecast.timeline, answer.bowl.bake, clock, answer.now);
  out["oven"] = in_brief(answer.oven);
  out["ready_for"] = answer.ready_for ? to_json(*answer.ready_for) : json();
  out["ph_4_6"] = spread(forecast.sour);
  out["cautions"] = answer.cautions;
  return out;
}

json to_json(const ReachAnswer& answer) {
  json out = document("reach");
  const forecast::Reach& reach = answer.reach;
  out["name"] = answer.bake.name;
  out["drink"] = reach.drink;
  out["within_h"] = reach.within.in(hour);
  out["wanted_chance"] = answer.wanted.value();
  out["largest_share_of_liquid"] = reach.none ? json(nullptr) : json(reach.share);
  out["chance"] = reach.chance.value();
  out["ready_p50_h"] = hours(reach.ready);
  out["plain_p50_h"] = hours(reach.without);
  out["share_now"] = reach.now;
  out["chance_now"] = reach.chance_now.value();
  out["draws"] = answer.draws;
  return out;
}

json to_json(const MatchAnswer& answer) {
  json out = document("match");
  out["name"] = answer.bake.name;
  out["like"] = answer.other.name;
  add_solution(out, answer.bake, answer.solution);
  return out;
}

json to_json(const SolveAnswer& answer) {
  json out = document("solve");
  out["name"] = answer.bake.name;
  out["aims"] = json::array();
  for (std::size_t i = 0; i < answer.targets.size(); ++i) {
    out["aims"].push_back({{"aim", formula::name(answer.targets[i].aim)},
                           {"wanted_si", answer.targets[i].value},
                           {"reached_si", answer.solution.reached.at(i)}});
  }
  add_solution(out, answer.bake, answer.solution);
  return out;
}

json to_json(const WaterAnswer& answer) {
  json out = document("water");
  out["water_C"] = answer.water.celsius();
  out["ice_g"] = answer.ice ? json(answer.ice->in(gram)) : json(nullptr);
  return out;
}

json to_json(const ThinAnswer& answer) {
  json out = document("thin");
  out["drink"] = answer.drink;
  out["strength_percent_vol"] = answer.wanted.percent();
  out["drink_g"] = answer.thinned.drink.in(gram);
  out["water_g"] = answer.thinned.water.in(gram);
  out["drink_mL"] = answer.thinned.drink_volume.in(millilitre);
  out["water_mL"] = answer.thinned.water_volume.in(millilitre);
  out["together_mL"] = answer.thinned.together.in(millilitre);
  out["working"] = answer.thinned.working;
  return out;
}

json to_json(const LevainAnswer& answer) {
  json out = document("levain");
  const forecast::Feeding& feeding = answer.feeding;
  out["starter"] = answer.request.starter;
  out["temperature_C"] = answer.request.temperature.celsius();
  out["fresh_flour_parts"] = feeding.fresh_flour;
  out["water_parts"] = feeding.water;
  out["ripe_g"] = feeding.ripe_mass.in(gram);
  out["flour_g"] = feeding.flour_mass.in(gram);
  out["water_g"] = feeding.water_mass.in(gram);
  out["peak"] = spread(feeding.peak);
  out["tripled"] = spread(feeding.tripled);
  out["largest_volume_ratio"] = feeding.largest_rise;
  out["ph_at_peak"] = feeding.ph_at_peak.value();
  out["feed_at"] = answer.feed_at.empty() ? json(nullptr) : json(answer.feed_at);
  out["draws"] = answer.draws;
  return out;
}

json to_json(const std::vector<larder::Ingredient>& ingredients) {
  json out = document("larder");
  out["ingredients"] = json::array();
  for (const larder::Ingredient& ingredient : ingredients) {
    json known = json::object();
    for (std::size_t i = 0; i < larder::property_count; ++i) {
      const auto& value = ingredient.known[i];
      if (!value) continue;
      known[std::string(larder::name(static_cast<larder::Property>(i)))] = {
          {"typical_si", value->typical},
          {"low_si", value->low},
          {"high_si", value->high},
          {"source", value->source->key},
          {"at", value->at},
          {"standing", data::name(value->source->standing)}};
    }
    out["ingredients"].push_back({{"key", ingredient.key},
                                  {"name", ingredient.name},
                                  {"also", ingredient.also},
                                  {"group", larder::name(ingredient.group)},
                                  {"allergens", ingredient.allergens},
                                  {"note", ingredient.note},
                                  {"known", known}});
  }
  return out;
}

json to_list(const std::vector<larder::Ingredient>& ingredients) {
  json out = document("larder-list");
  out["ingredients"] = json::array();
  for (const larder::Ingredient& ingredient : ingredients) {
    out["ingredients"].push_back({{"key", ingredient.key},
                                  {"name", ingredient.name},
                                  {"also", ingredient.also},
                                  {"group", larder::name(ingredient.group)},
                                  {"note", ingredient.note}});
  }
  return out;
}

json to_json(const RestingAnswer& answer) {
  json out = document("source");
  out["bake"] = answer.bake.name;
  out["values"] = json::array();
  for (const auto& [entry, share] : answer.numbers) {
    json one = to_json(std::vector<data::Entry>{entry})["values"][0];
    one["share_of_doubt"] = share;
    out["values"].push_back(std::move(one));
  }
  return out;
}

json to_json(const std::vector<data::Entry>& entries) {
  json out = document("source");
  out["values"] = json::array();
  for (const data::Entry& entry : entries) {
    out["values"].push_back({{"name", entry.name},
                             {"value", entry.value},
                             {"unit", entry.unit},
                             {"doubt_ln_sd", entry.doubt},
                             {"standing", data::name(entry.source->standing)},
                             {"source", entry.source->key},
                             {"title", entry.source->title},
                             {"at", entry.at},
                             {"note", entry.note},
                             {"file", entry.file}});
  }
  return out;
}

json to_json(const Error& error) {
  json out = document("error");
  out["code"] = name(error.code);
  out["where"] = error.where;
  out["message"] = error.message;
  return out;
}

}  // namespace barm::service

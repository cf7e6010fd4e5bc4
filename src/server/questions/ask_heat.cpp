// The questions of heat: the water, a drink simmered, the dough out of the mixer, doughs in a
// fridge, the loaf in its oven.
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <string_view>
#include <utility>

#include "formula/amount.h"
#include "generated/all_questions.h"
#include "heat/probe.h"
#include "server/questions/asked.h"
#include "service/bake/mix.h"
#include "service/bake/water.h"
#include "service/house/equipment.h"
#include "service/house/fridge.h"
#include "service/oven/oven.h"
#include "service/oven/simmer.h"

namespace barm::server {

namespace {

// The use cases name what they refuse as the terminal does.
std::string heat_field(const std::string& where) {
  static constexpr std::pair<std::string_view, const char*> table[] = {
      {"drink", "/drink"},
      {"to", "/to"},
      {"oven", "/set_C"},
      {"bake", "/bake_min"},
      {"loaves", "/loaves"},
      {"cavity", "/cavity_L"},
      {"power", "/power_kW"},
      {"steam", "/steam_min"},
      {"lid", "/lid_min"},
      {"set", "/set_C"},
      {"pieces", "/pieces"},
      {"--read", "/readings"},
      {"probe", "/probe"},
      {"baked", "/lighter_by"},
      {"measured", "/named"},
  };
  for (const auto& [name, field] : table) {
    if (where == name) return field;
  }
  if (where.starts_with("probe:")) return "/probe";
  if (where.starts_with("toml")) return "/named";
  return where.starts_with("bake:") ? "/bake" : "";
}

template <class Answer>
Reply heat_reply(const Result<Answer>& result) {
  if (!result) throw Refused{problem(result.error(), heat_field(result.error().where))};
  return answered(service::to_json(*result));
}

template <class T>
T heat_part(Result<T> result, const char* field) {
  if (!result) throw Refused{problem(result.error(), field)};
  return *std::move(result);
}

std::optional<Temperature> warmth(Fields& fields, const char* key, double low, double high) {
  const auto celsius =
      fields.number(key, low, high, fmt::format("degrees from {:g} to {:g}", low, high));
  return celsius ? std::optional(Temperature::from_celsius(*celsius)) : std::nullopt;
}

std::optional<Time> minutes(Fields& fields, const char* key, double high) {
  const auto value = fields.number(key, 0, high, fmt::format("minutes to {:g}", high));
  return value ? std::optional(*value * minute) : std::nullopt;
}

std::vector<heat::ProbeReading> probe(Fields& fields, const heat::ProbeLimits& limits) {
  const auto text = fields.text("probe", "the text of a probe's CSV: minutes,celsius");
  if (!text) return {};
  return heat_part(heat::parse_probe(*text, "probe", limits), "/probe");
}

// The house's own of the name in `named`, else of the one in the bake's file, else its only one;
// where it is to be kept, a new one of a name that is nobody's.
std::optional<storage::Equipment> own(Fields& fields,
                                      const AskContext& context,
                                      const char* what,
                                      const std::string& in_file = "") {
  const auto named = fields.text("named", fmt::format("the name of a {} of the house", what));
  const bool keeps = fields.yes("keep");
  const auto& house = context.stored.house();
  const std::string name = named.value_or(in_file);
  const auto found =
      keeps ? service::of_house_or_new(house, what, name) : service::of_house(house, what, name);
  if (!found && (named || keeps)) throw Refused{problem(found.error(), "/named")};
  return found.value_or(std::nullopt);
}

template <class Request>
void is_of(Request& request, std::optional<storage::Equipment> one, const service::Now& now) {
  if (one) request.with = service::said(*one, now.zone);
  request.of = std::move(one);
  request.measured_at = now.at;
}

Reply ask_simmer(Fields& fields, const AskContext&) {
  service::SimmerRequest request;
  request.drink = fields.needed(
      fields.text("drink", "a drink of the larder"), "drink", "needs a drink of the larder");
  const std::string what = "a share of the weight such as 60 %, or a strength such as 2 % vol";
  const auto to = fields.needed(fields.text("to", what), "to", "needs " + what);
  request.until = heat_part(service::parse_until(to), "/to");
  request.pan.heat = drink::usual_heat();
  if (const auto grams = fields.number("in_g", 1, 1e6, "grams such as 1000"))
    request.pan.drink = *grams * gram;
  if (const auto watts = fields.number("heat_W", 50, 50000, "watts such as 1000"))
    request.pan.heat = *watts * watt;
  return heat_reply(service::simmer(request));
}

Reply ask_mix(Fields& fields, const AskContext& context) {
  service::MixRequest request;
  request.dough = warmth(fields, "dough_C", 0, 45);
  request.flour = warmth(fields, "flour_C", -25, 60).value_or(request.flour);
  request.room = warmth(fields, "room_C", -5, 50).value_or(request.room);
  request.levain = warmth(fields, "levain_C", -5, 50);
  request.drinks = warmth(fields, "drinks_C", -25, 60);
  request.tap = warmth(fields, "tap_C", 0, 40);
  request.runs = minutes(fields, "mixer_min", 90).value_or(request.runs);
  if (fields.find("readings") != nullptr) {
    for (const std::string& text :
         fields.texts("readings", "a list of readings such as \"2min 21.5C\""))
      request.readings.push_back(heat_part(service::parse_mixer_reading(text), "/readings"));
  }
  is_of(request, own(fields, context, "mixer"), context.now);
  return heat_reply(service::mix(asked_bake(fields, context.stored), request));
}

Reply ask_fridge(Fields& fields, const AskContext& context) {
  service::FridgeRequest request;
  request.pieces =
      static_cast<int>(fields.whole("pieces", 1, 2000, "1 to 2000 pieces").value_or(0));
  request.set = warmth(fields, "set_C", -2, 15);
  request.wanted = warmth(fields, "wanted_C", 0, 25);
  request.power = fields.number("power_W", 10, 50000, "watts such as 120");
  if (const auto hours = fields.number("for_h", 0.5, 96, "hours such as 12"))
    request.lasts = *hours * hour;
  if (const auto hours = fields.number("within_h", 0.5, 96, "hours such as 4"))
    request.within = *hours * hour;
  request.probe = probe(fields, {-10, 40, "air"});
  is_of(request, own(fields, context, "fridge"), context.now);
  return heat_reply(service::fridge(asked_bake(fields, context.stored), request));
}

// "set_C": a number, or a list of [minute, degrees].
std::vector<formula::OvenSetting> settings(Fields& fields) {
  constexpr const char* what = "needs degrees from 100 to 350, or a list of [minute, degrees]";
  const Json* set = fields.find("set_C");
  if (set == nullptr) return {};
  if (set->is_number()) return {{Time{}, Temperature::from_celsius(set->get<double>())}};
  std::vector<formula::OvenSetting> out;
  if (!set->is_array() || set->empty() || set->size() > 20) refuse_field("/set_C", what);
  for (const Json& one : *set) {
    const bool pair = one.is_array() && one.size() == 2 && one[0].is_number() && one[1].is_number();
    if (!pair) refuse_field("/set_C", what);
    const double from = one[0].get<double>();
    const bool ascends = out.empty() ? from == 0 : from > out.back().from.in(minute);
    if (!ascends) refuse_field("/set_C", "needs [0, degrees] first, then later ones in order");
    out.push_back({from * minute, Temperature::from_celsius(one[1].get<double>())});
  }
  return out;
}

formula::OvenTable oven_table(Fields& fields) {
  formula::OvenTable out;
  out.form = fields.text("form", "round, long, tin or flat").value_or("");
  if (!out.form.empty() && !oven::form_named(out.form))
    refuse_field("/form", "needs round, long, tin or flat");
  out.set = settings(fields);
  out.bake = minutes(fields, "bake_min", 240);
  out.steam = minutes(fields, "steam_min", 240);
  out.lid = minutes(fields, "lid_min", 240);
  if (fields.find("stone") != nullptr) out.stone = fields.yes("stone");
  if (fields.find("fan") != nullptr) out.fan = fields.yes("fan");
  const auto count = [&](const char* key) {
    const auto value = fields.whole(key, 1, 1000, "loaves from 1 to 1000");
    return value ? std::optional(static_cast<int>(*value)) : std::nullopt;
  };
  out.loaves = count("loaves");
  out.holds = count("holds");
  if (const auto litres = fields.number("cavity_L", 5, 50000, "litres such as 60"))
    out.cavity = *litres * litre;
  out.kilowatts = fields.number("power_kW", 0.2, 1000, "kilowatts such as 3");
  out.room = warmth(fields, "room_C", -5, 45);
  return out;
}

Reply ask_oven(Fields& fields, const AskContext& context) {
  service::OvenRequest request;
  request.said = oven_table(fields);
  request.probe = probe(fields, {0, 105, "core"});
  request.weighed = fields.number("lighter_by", 0.01, 0.4, "a share of the dough such as 0.135");
  forecast::Options options;
  options.draws = static_cast<int>(
      fields.whole("draws", 20, 20000, "how many loaves to simulate, from 20 to 20000")
          .value_or(400));
  options.seed = static_cast<unsigned long long>(
      fields.whole("seed", 0, 1'000'000'000, "a whole number from 0 on").value_or(1));
  options.threads = context.threads;
  options.cancelled = context.watch.cancelled;
  formula::Bake bake = asked_bake(fields, context.stored);
  request.of = own(fields, context, "oven", bake.oven ? bake.oven->name : "");
  if (request.of) bake = service::baked_in(std::move(bake), *request.of, context.now.zone);
  request.measured_at = context.now.at;
  return heat_reply(service::oven(bake, request, options));
}

Reply ask_water(Fields& fields, const AskContext&) {
  const auto water_warmth = [&](const char* key) -> std::optional<Temperature> {
    const auto celsius = fields.number(key, -40, 100, "a temperature such as 24");
    return celsius ? std::optional(Temperature::from_celsius(*celsius)) : std::nullopt;
  };
  const auto needed = [&](const char* key) {
    return fields.needed(water_warmth(key), key, "needs a temperature such as 24");
  };
  service::WaterRequest request;
  request.mixing.dough = needed("dough_C");
  request.mixing.flour = needed("flour_C");
  request.mixing.room = needed("room_C");
  request.mixing.levain = water_warmth("levain_C");
  request.mixing.friction =
      fields.number("friction_C", 0, 60, "degrees such as 4").value_or(0) * kelvin;
  if (const auto grams = fields.number("water_g", 0, 1e7, "grams such as 2000"))
    request.water = *grams * gram;
  request.tap = water_warmth("tap_C");
  return reply_of(service::water(request));
}

}  // namespace

std::vector<Question> heat_questions() {
  return {
      {.name = "water", .answer = ask_water},
      {.name = "simmer", .follows_from_itself = true, .answer = ask_simmer},
      {.name = "mix", .answer = ask_mix},
      {.name = "fridge", .heavy = true, .follows_from_itself = true, .answer = ask_fridge},
      {.name = "oven",
       .heavy = true,
       .as_a_job = true,
       .follows_from_itself = true,
       .answer = ask_oven},
  };
}

}  // namespace barm::server

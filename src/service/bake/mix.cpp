#include "service/bake/mix.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "chemistry/mixing_heat.h"
#include "formula/amount.h"
#include "formula/bowl.h"
#include "formula/water_temperature.h"
#include "generated/constants.h"
#include "service/house/equipment.h"
#include "service/internal/object.h"
#include "service/words.h"
#include "storage/record_json.h"

namespace barm::service {

using internal::object;
using larder::Composition;
using larder::Group;
using larder::Property;
using nlohmann::json;

namespace {

constexpr double usual_dough = 24;
constexpr double usual_tap = 12;

// What a kilogram of an ingredient takes to warm: its drink part as ethanol and water together, its
// solids by what they are.
heat::HeatCapacity capacity_of(const Composition& c) {
  const double liquid = c[Property::water] + c[Property::ethanol];
  heat::Makeup solids;
  solids.protein = c[Property::protein];
  solids.fat = c[Property::fat];
  solids.fibre = c[Property::fibre];
  solids.ash = c[Property::ash] + c[Property::salt];
  solids.carbohydrate =
      std::max(0.0, 1 - liquid - solids.protein - solids.fat - solids.fibre - solids.ash);
  const double rest = 1 - liquid;
  double capacity = 0;
  if (rest > 1e-9)
    capacity += rest * heat::material(solids, Temperature::from_celsius(20), 0).capacity.si();
  if (liquid > 1e-9) {
    capacity +=
        liquid * chemistry::liquid_capacity(MassFraction(c[Property::ethanol] / liquid)).si();
  }
  return heat::HeatCapacity::from_si(capacity);
}

// Heat that is set free where a drink's alcohol meets the bowl's water: that of the whole less what
// each part gave off when it was made.
Energy heat_of_mixing(const formula::Bowl& bowl, const std::vector<Composition>& settled) {
  Energy heat = chemistry::heat_of_mixing(bowl.ethanol, bowl.water);
  for (std::size_t i = 0; i < settled.size(); ++i) {
    const Mass mass = bowl.lines[i].actual;
    heat = heat - chemistry::heat_of_mixing(settled[i][Property::ethanol] * mass,
                                            settled[i][Property::water] * mass);
  }
  return heat;
}

bool is_water(const formula::Portion& portion) { return portion.ingredient.group == Group::water; }

bool is_drink(const formula::Portion& portion) {
  return portion.ingredient.is_liquid() && !is_water(portion) && !portion.levain;
}

struct Bowlful {
  std::vector<heat::Poured> poured;
  std::vector<std::size_t> free;
  std::optional<std::size_t> water;
};

Bowlful bowlful(const formula::Bake& bake,
                const formula::Bowl& bowl,
                const std::vector<Composition>& settled,
                const MixRequest& request) {
  Bowlful out;
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    const formula::Portion& portion = bake.bowl[i];
    Temperature at = request.room;
    if (portion.ingredient.is_flour()) at = request.flour;
    if (portion.levain) at = request.levain.value_or(request.room);
    if (is_drink(portion) && request.drinks) at = *request.drinks;
    out.poured.push_back({bowl.lines[i].name, bowl.lines[i].actual, capacity_of(settled[i]), at});
    if (is_water(portion) || (is_drink(portion) && !request.drinks)) out.free.push_back(i);
    if (is_water(portion)) out.water = i;
  }
  return out;
}

heat::HeatCapacity capacity_of(const std::vector<heat::Poured>& poured) {
  double capacity = 0;
  double mass = 0;
  for (const heat::Poured& one : poured) {
    capacity += one.mass.si() * one.capacity.si();
    mass += one.mass.si();
  }
  return heat::HeatCapacity::from_si(capacity / mass);
}

Result<bool> learn(const MixRequest& request, MixAnswer& answer, heat::HeatCapacity capacity) {
  answer.friction_learned = !request.readings.empty();
  if (answer.friction_learned) {
    const auto learned = heat::learn_friction(request.readings, capacity);
    if (!learned) return failure(learned.error().code, "--read", learned.error().message);
    answer.friction = *learned;
    return true;
  }
  namespace usual = constants::mixer;
  answer.friction = {usual::friction.value, usual::friction.doubt * usual::friction.value, {}};
  if (!request.of) return true;
  const auto can = formula::parse_mixer(request.of->toml, "toml");
  if (!can) return failure(can);
  answer.friction_learned = can->watts_per_kilogram.has_value();
  const auto watts_per_kilogram = watt / kilogram;
  if (can->watts_per_kilogram)
    answer.friction = {*can->watts_per_kilogram * watts_per_kilogram,
                       can->spread_watts_per_kilogram.value_or(0) * watts_per_kilogram,
                       {}};
  return true;
}

// The record of the house's mixer with what these readings taught of it.
std::optional<storage::Equipment> to_keep(const MixRequest& request, const MixAnswer& answer) {
  if (!request.of || request.readings.empty()) return request.of;
  storage::Equipment keep = *request.of;
  keep.toml = formula::lines_of(
      formula::MixerTable{answer.friction.power.si(), answer.friction.spread.si()});
  keep.measured = lessons_text({Lesson{request.measured_at, answer.name, {}}});
  return keep;
}

// The trade's rule with the same friction in its own measure, and how far its dough would be off.
void lay_the_rule_beside(const MixRequest& request,
                         const heat::Mixer& mixer,
                         std::vector<heat::Poured> poured,
                         const Bowlful& bowl,
                         Energy mixing,
                         MixAnswer& answer) {
  const double count = request.levain ? 4 : 3;
  const auto rule = formula::water_temperature({answer.wanted,
                                                request.flour,
                                                request.room,
                                                request.levain,
                                                count * answer.warmth.by_friction});
  if (!rule) {
    answer.no_rule = rule.error().message;
    return;
  }
  answer.by_factors = *rule;
  for (const std::size_t at : bowl.free) poured[at].temperature = *rule;
  answer.factors_miss = heat::mixed(poured, {}, mixing, mixer).dough - answer.wanted;
}

}  // namespace

Result<MixAnswer> mix(const formula::Bake& bake, const MixRequest& request) {
  const auto settled = formula::settle(bake);
  if (!settled) return failure(settled);
  const auto bowl = formula::in_the_bowl(bake, *settled);
  if (!bowl) return failure(bowl);
  MixAnswer answer;
  answer.name = bake.name;
  answer.request = request;
  answer.wanted = request.dough.value_or(
      bake.mixed_temperature().value_or(Temperature::from_celsius(usual_dough)));
  const Bowlful all = bowlful(bake, *bowl, *settled, request);
  if (all.free.empty())
    return failure(ErrorCode::bad_input, "", "no liquid of this bowl is left to chill or to warm");
  if (const auto learned = learn(request, answer, capacity_of(all.poured)); !learned)
    return failure(learned);
  answer.with = request.with;
  answer.keep = to_keep(request, answer);
  const heat::Mixer mixer{
      answer.friction.power, request.runs, constants::mixer::room_share.value.si(), request.room};
  const Energy mixing = heat_of_mixing(*bowl, *settled);
  const Temperature coldest = request.tap.value_or(Temperature::from_celsius(usual_tap));
  const auto liquid =
      heat::liquid_for(answer.wanted, all.poured, all.free, all.water, coldest, mixing, mixer);
  if (!liquid) return failure(liquid);
  answer.liquid = *liquid;
  answer.poured = all.poured;
  for (const std::size_t at : all.free) {
    answer.poured[at].temperature = liquid->liquid;
    answer.free.push_back(answer.poured[at].name);
  }
  if (all.water) answer.poured[*all.water].mass = answer.poured[*all.water].mass - liquid->ice;
  answer.warmth = heat::mixed(answer.poured, liquid->ice, mixing, mixer);
  lay_the_rule_beside(request, mixer, all.poured, all, mixing, answer);
  if (liquid->liquid.celsius() < 5 && bowl->ethanol.si() > 0 && !request.drinks) {
    answer.cautions.emplace_back(
        "A drink this cold holds its gas: bakers chill it flat, or it foams up in the bowl.");
  }
  return answer;
}

std::string friction_in_words(const MixAnswer& answer) {
  const double off = answer.friction.off.in(kelvin);
  const std::string poor =
      off > heat::poor_line
          ? fmt::format(
                "; they lie {:.1f} °C off a line, so they tell little: read again, the tip deep "
                "in the dough, the mixer running on",
                off)
          : "";
  return fmt::format("{:.0f} ± {:.0f} W a kilogram, {}{}",
                     answer.friction.power.si(),
                     answer.friction.spread.si(),
                     !answer.request.readings.empty() ? "learned from your readings"
                     : answer.friction_learned
                         ? answer.with
                         : "what mixers do; two readings of yours would settle it",
                     poor);
}

Result<heat::MixerReading> parse_mixer_reading(const std::string& text) {
  const std::size_t blank = text.rfind(' ');
  const auto wrong =
      failure(ErrorCode::bad_input, "", "a reading is a time and a temperature: \"2min 21.5C\"");
  if (blank == std::string::npos) return wrong;
  const auto after = formula::parse_time(text.substr(0, blank));
  const auto dough = formula::parse_temperature(text.substr(blank + 1));
  if (!after || !dough) return wrong;
  return heat::MixerReading{*after, *dough};
}

json to_json(const MixAnswer& answer) {
  json poured = json::array();
  for (const heat::Poured& one : answer.poured) {
    poured.push_back(object({{"ingredient", one.name},
                             {"g", one.mass.in(gram)},
                             {"C", one.temperature.celsius()},
                             {"capacity_J_per_kg_K", one.capacity.si()}}));
  }
  const auto difference = [](TemperatureDifference d) { return d.in(kelvin); };
  return object(
      {{"schema", "barm.mix/1"},
       {"name", answer.name},
       {"wanted_C", answer.wanted.celsius()},
       {"liquid_C", answer.liquid.liquid.celsius()},
       {"liquid_of", answer.free},
       {"ice_g", answer.liquid.ice.in(gram)},
       {"poured", poured},
       {"dough_C", answer.warmth.dough.celsius()},
       {"by_mixing_alcohol_K", difference(answer.warmth.by_mixing_alcohol)},
       {"by_friction_K", difference(answer.warmth.by_friction)},
       {"by_ice_K", difference(answer.warmth.by_ice)},
       {"by_room_K", difference(answer.warmth.by_room)},
       {"runs_min", answer.request.runs.in(minute)},
       {"friction_W_per_kg", answer.friction.power.si()},
       {"friction_spread_W_per_kg", answer.friction.spread.si()},
       {"friction_learned", answer.friction_learned},
       {"friction_words", friction_in_words(answer)},
       {"with", answer.with},
       {"keep", answer.keep ? storage::to_json(*answer.keep) : json()},
       {"by_factors_C", answer.by_factors ? json(answer.by_factors->celsius()) : json()},
       {"no_rule", answer.no_rule},
       {"factors_miss_K", answer.by_factors ? json(difference(answer.factors_miss)) : json()},
       {"cautions", answer.cautions}});
}

}  // namespace barm::service

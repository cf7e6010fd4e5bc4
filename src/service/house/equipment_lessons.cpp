// What an oven, a fridge or a mixer was learned from, kept as JSON: a bake with all that
// oven::learn() takes, so that the next one is learned together with it.
#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "service/house/equipment.h"
#include "service/internal/object.h"

namespace barm::service {

using internal::object;
using nlohmann::json;

namespace {

constexpr std::size_t learned_numbers = 10;

json pair_of(double first, double second) { return json::array({first, second}); }

json measured_json(const oven::Measured& measured) {
  const oven::Loaf& loaf = measured.loaf;
  const oven::Oven& oven = measured.oven;
  const heat::Makeup& m = loaf.makeup;
  json set = json::array();
  for (const oven::Setting& one : oven.set)
    set.push_back(pair_of(one.from.in(minute), one.to.celsius()));
  json core = json::array();
  for (const heat::ProbeReading& one : measured.core)
    core.push_back(pair_of(one.at.in(minute), one.temperature.celsius()));
  return object(
      {{"loaf",
        object({{"g", loaf.mass.in(gram)},
                {"form", oven::name(loaf.form)},
                {"C", loaf.temperature.celsius()},
                {"gas", loaf.gas},
                {"room", loaf.room},
                {"makeup",
                 json{m.water, m.protein, m.fat, m.carbohydrate, m.fibre, m.ash, m.ethanol}}})},
       {"oven",
        object({{"set", set},
                {"fan", oven.fan},
                {"steam_min", oven.steam.in(minute)},
                {"lid_min", oven.lid.in(minute)},
                {"on_stone", oven.on_stone},
                {"loaves", oven.loaves},
                {"cavity_L", oven.cavity.in(litre)},
                {"power_W", oven.power ? json(oven.power->si()) : json()}})},
       {"min", measured.lasts.in(minute)},
       {"core", core},
       {"lighter_by", measured.loss ? json(*measured.loss) : json()}});
}

oven::Loaf loaf_in(const json& said) {
  oven::Loaf loaf;
  loaf.mass = said.at("g").get<double>() * gram;
  loaf.form = oven::form_named(said.at("form").get<std::string>()).value_or(oven::Form::round);
  loaf.temperature = Temperature::from_celsius(said.at("C").get<double>());
  loaf.gas = said.at("gas").get<double>();
  loaf.room = said.at("room").get<double>();
  const auto m = said.at("makeup").get<std::array<double, 7>>();
  loaf.makeup = {m[0], m[1], m[2], m[3], m[4], m[5], m[6]};
  return loaf;
}

oven::Oven oven_in(const json& said) {
  oven::Oven oven;
  for (const json& one : said.at("set"))
    oven.set.push_back(
        {one.at(0).get<double>() * minute, Temperature::from_celsius(one.at(1).get<double>())});
  oven.fan = said.at("fan").get<bool>();
  oven.steam = said.at("steam_min").get<double>() * minute;
  oven.lid = said.at("lid_min").get<double>() * minute;
  oven.on_stone = said.at("on_stone").get<double>();
  oven.loaves = said.at("loaves").get<int>();
  oven.cavity = said.at("cavity_L").get<double>() * litre;
  if (said.at("power_W").is_number()) oven.power = said.at("power_W").get<double>() * watt;
  return oven;
}

oven::Measured measured_in(const json& said) {
  oven::Measured out{loaf_in(said.at("loaf")), oven_in(said.at("oven")), {}, {}, {}};
  out.lasts = said.at("min").get<double>() * minute;
  for (const json& one : said.at("core"))
    out.core.push_back(
        {one.at(0).get<double>() * minute, Temperature::from_celsius(one.at(1).get<double>())});
  if (said.at("lighter_by").is_number()) out.loss = said.at("lighter_by").get<double>();
  return out;
}

tl::unexpected<Error> no_list(const std::string& why) {
  return failure(ErrorCode::bad_input, "measured", why);
}

Result<Lesson> lesson_in(const json& said) {
  const auto at = time::parse_instant(said.at("at").get<std::string>());
  if (!at) return no_list("a lesson is of a moment such as 2026-11-28T06:00:00Z");
  Lesson lesson{*at, said.at("bake").get<std::string>(), {}};
  if (!said.contains("baked")) return lesson;
  lesson.baked = measured_in(said["baked"]);
  const auto fits = oven::check(lesson.baked->loaf, lesson.baked->oven, lesson.baked->lasts);
  if (!fits) return no_list("no bake of an oven: " + fits.error().text());
  const heat::Makeup& m = lesson.baked->loaf.makeup;
  for (const double part : {m.water, m.protein, m.fat, m.carbohydrate, m.fibre, m.ash, m.ethanol}) {
    if (!(part >= 0 && part <= 1)) return no_list("a dough's parts lie between 0 and 1");
  }
  if (!(m.water > 0.05 && m.water + m.ethanol < 0.9))
    return no_list("a dough has water and solids");
  return lesson;
}

}  // namespace

std::string lessons_text(const std::vector<Lesson>& lessons) {
  json out = json::array();
  const std::size_t from = lessons.size() - std::min(lessons.size(), most_lessons);
  for (std::size_t i = from; i < lessons.size(); ++i) {
    const Lesson& one = lessons[i];
    json said = object({{"at", one.at.text()}, {"bake", one.bake}});
    if (one.baked) said["baked"] = measured_json(*one.baked);
    out.push_back(std::move(said));
  }
  return out.dump();
}

Result<std::vector<Lesson>> lessons_of(const storage::Equipment& one) {
  std::vector<Lesson> out;
  if (one.measured.empty()) return out;
  const json list = json::parse(one.measured, nullptr, false);
  if (!list.is_array() || list.size() > most_lessons)
    return no_list("a list of what it was learned from, as the program writes it; or empty");
  try {
    for (const json& said : list) {
      auto lesson = lesson_in(said);
      if (!lesson) return failure(lesson);
      out.push_back(*std::move(lesson));
    }
  } catch (const json::exception&) {
    return no_list("a list of what it was learned from, as the program writes it; or empty");
  }
  return out;
}

std::vector<double> numbers_of(const oven::LearnedOven& known) {
  const oven::Luck& z = known.middle;
  const oven::Luck& s = known.doubt;
  return {z.conduction,
          s.conduction,
          z.crust,
          s.crust,
          z.transfer,
          s.transfer,
          z.dial,
          s.dial,
          z.begins,
          z.cold};
}

oven::LearnedOven known_of(const std::vector<double>& n) {
  oven::LearnedOven out;
  if (n.size() != learned_numbers) return out;
  out.middle = {n[0], n[2], n[4], n[6], 0, n[8], n[9]};
  out.doubt = {n[1], n[3], n[5], n[7], 1, 1, 1};
  return out;
}

}  // namespace barm::service

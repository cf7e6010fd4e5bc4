#include "service/oven.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "forecast/bodies.h"
#include "generated/constants.h"
#include "service/alcohol_cautions.h"
#include "service/words.h"

namespace barm::service {

namespace {

constexpr Time usual_bake = 40.0 * minute;
constexpr double usual_oven = 230;  // C
constexpr double usual_room = 22;   // C

template <class T>
const std::optional<T>& first_of(const std::optional<T>& one, const std::optional<T>& other) {
  return one ? one : other;
}

// What the request says, over what the bake's file says.
formula::OvenTable laid_over(const formula::OvenTable& said, const formula::OvenTable& file) {
  formula::OvenTable out;
  out.form = said.form.empty() ? file.form : said.form;
  out.set = said.set.empty() ? file.set : said.set;
  out.bake = first_of(said.bake, file.bake);
  out.steam = first_of(said.steam, file.steam);
  out.lid = first_of(said.lid, file.lid);
  out.stone = first_of(said.stone, file.stone);
  out.fan = first_of(said.fan, file.fan);
  out.loaves = first_of(said.loaves, file.loaves);
  out.holds = first_of(said.holds, file.holds);
  out.cavity = first_of(said.cavity, file.cavity);
  out.kilowatts = first_of(said.kilowatts, file.kilowatts);
  out.room = first_of(said.room, file.room);
  out.learned = said.learned.empty() ? file.learned : said.learned;
  return out;
}

oven::Oven oven_of(const formula::OvenTable& table, std::vector<std::string>& assumed) {
  oven::Oven out;
  for (const formula::OvenSetting& setting : table.set)
    out.set.push_back({setting.from, setting.to});
  if (out.set.empty()) {
    out.set.push_back({Time{}, Temperature::from_celsius(usual_oven)});
    assumed.push_back(fmt::format("the oven at {:.0f} °C", usual_oven));
  }
  out.fan = table.fan.value_or(false);
  out.steam = table.steam.value_or(Time{});
  out.lid = table.lid.value_or(Time{});
  if (table.stone.value_or(false)) out.on_stone = constants::form::base_share.value.si();
  out.loaves = table.loaves.value_or(1);
  out.holds = table.holds;
  if (table.cavity) {
    out.cavity = *table.cavity;
  } else {
    assumed.push_back(fmt::format("a cavity of {:.0f} L", out.cavity.in(litre)));
  }
  if (table.kilowatts) out.power = *table.kilowatts * 1000 * watt;
  return out;
}

oven::Known known_of(const std::vector<double>& learned) {
  oven::Known out;
  if (learned.size() != 10) return out;
  out.middle = {learned[0], learned[2], learned[4], learned[6], 0, learned[8], learned[9]};
  out.doubt = {learned[1], learned[3], learned[5], learned[7], 1, 1, 1};
  return out;
}

// Alcohol that fermentation made by the end, for each kilogram of dough.
double fermented_ethanol(const forecast::MiddleDough& forecast) {
  const double gas = forecast.book.at_ready[kinetics::yeast_gas];
  const double gas_at_end = forecast.book.at_end[kinetics::yeast_gas];
  const Amount made = (gas > 0 ? gas : gas_at_end) * millimole;
  return (constants::yeast::ethanol_per_gas.value.si() * made *
          constants::molar_mass::ethanol.value)
      .in(kilogram);
}

oven::Loaf loaf_of(const forecast::MiddleDough& forecast,
                   const formula::OvenTable& table,
                   std::vector<std::string>& assumed) {
  oven::Loaf loaf;
  loaf.form = oven::form_named(table.form).value_or(oven::Form::round);
  if (table.form.empty()) assumed.emplace_back("a round loaf");
  const formula::Bowl& bowl = forecast.bowl;
  loaf.mass = bowl.pieces > 0 ? bowl.piece : bowl.dough;
  if (bowl.pieces == 0)
    assumed.emplace_back("all the dough as one loaf, since the file names no pieces");
  forecast::Draw draw;
  draw.bowl = bowl;
  draw.settled = forecast.settled;
  loaf.makeup = forecast::makeup_of(draw);
  const double made = fermented_ethanol(forecast);
  loaf.makeup.ethanol += made;
  loaf.makeup.carbohydrate = std::max(0.0, loaf.makeup.carbohydrate - made);
  const double rise = forecast.stops.empty() ? forecast.target : forecast.stops.back().rise;
  const double solid = 1 - constants::gas::void_at_start.value.si();
  loaf.gas = std::clamp(1 - solid / std::max(1.0, rise), 0.05, 0.9);
  loaf.room = constants::oven::room.value.si();
  if (!forecast.stops.empty()) {
    loaf.room = std::max(0.0, forecast.stops.back().room_left);
    loaf.temperature =
        Temperature::from_celsius(std::clamp(forecast.stops.back().dough.celsius(), 0.0, 45.0));
  } else {
    assumed.emplace_back("a dough that goes in at its target");
  }
  return loaf;
}

Ripeness ripeness_of(const oven::Loaf& loaf) {
  constexpr double too_little_room = 0.1;
  constexpr double too_much_room = 0.9;
  if (loaf.room < too_little_room) return Ripeness::ripe;
  return loaf.room > too_much_room ? Ripeness::young : Ripeness::right;
}

Result<OvenAnswer> prepared(const formula::Bake& bake,
                            const OvenRequest& request,
                            const forecast::Options& options) {
  const auto forecast = forecast::foresee_middle(bake, options);
  if (!forecast) return failure(forecast);
  OvenAnswer answer;
  answer.name = bake.name;
  const auto table = laid_over(request.said, bake.oven.value_or(formula::OvenTable{}));
  answer.oven = oven_of(table, answer.assumed);
  answer.loaf = loaf_of(*forecast, table, answer.assumed);
  answer.lasts = table.bake.value_or(usual_bake);
  if (!table.bake) answer.assumed.emplace_back("40 min of baking");
  answer.room = table.room.value_or(Temperature::from_celsius(usual_room));
  const auto fits = oven::check(answer.loaf, answer.oven, answer.lasts);
  if (!fits) return failure(fits);
  answer.known = known_of(table.learned);
  answer.ethanol = oven::ethanol_of(answer.loaf);
  answer.ripeness = ripeness_of(answer.loaf);
  return answer;
}

}  // namespace

Result<OvenAnswer> oven(const formula::Bake& bake,
                        const OvenRequest& request,
                        const forecast::Options& options) {
  auto answer = prepared(bake, request, options);
  if (!answer) return answer;
  if (!request.probe.empty() || request.weighed) {
    const auto learned =
        oven::learn({{answer->loaf, answer->oven, answer->lasts, request.probe, request.weighed}});
    if (!learned) return failure(learned);
    answer->learned = *learned;
    answer->known = learned->known;
  }
  answer->many = oven::many(answer->loaf,
                            answer->oven,
                            answer->known,
                            answer->lasts,
                            answer->room,
                            options.draws,
                            options.seed,
                            options.threads);
  answer->cautions = alcohol_cautions({*answer});
  return answer;
}

Result<std::optional<OvenLeaves>> oven_leaves(const formula::Bake& bake) {
  if (!bake.oven) return std::optional<OvenLeaves>();
  forecast::Options options;
  options.curves = false;
  const auto answer = oven(bake, {}, options);
  if (!answer) return failure(answer);
  OvenLeaves out;
  out.loss = answer->many.loss.p50 + answer->many.cooling_loss;
  out.alcohol_kept = answer->many.alcohol;
  out.kilowatt_hours = answer->many.book.course.back().energy / 3.6e6;
  return std::optional(out);
}

formula::Bake with_loss(formula::Bake bake, const std::optional<OvenLeaves>& leaves) {
  if (leaves && !bake.bake_loss_given) bake.bake_loss = std::clamp(leaves->loss, 0.0, 0.6);
  return bake;
}

}  // namespace barm::service

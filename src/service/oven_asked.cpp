#include "service/internal/oven_asked.h"

#include <fmt/format.h>

#include <algorithm>

#include "forecast/bodies.h"
#include "generated/constants.h"

namespace barm::service::internal {

namespace {

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
  if (!table.loaves) assumed.emplace_back("one loaf at once");
  out.holds = table.holds;
  if (table.cavity) {
    out.cavity = *table.cavity;
  } else {
    assumed.push_back(fmt::format("a cavity of {:.0f} L", out.cavity.in(litre)));
  }
  if (table.kilowatts) out.power = *table.kilowatts * 1000 * watt;
  return out;
}

oven::Known known(const std::vector<double>& learned) {
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

tl::unexpected<Error> never_done(const oven::Oven& oven) {
  return failure(ErrorCode::bad_input,
                 "oven",
                 fmt::format("at {:.0f} °C the core of such a loaf has no {:.0f} °C within 4 h: a "
                             "hotter oven, or say how long it bakes",
                             oven.set.back().to.celsius(),
                             oven::done_core().celsius()));
}

}  // namespace

Result<OvenAsked> asked_of(const forecast::MiddleDough& dough,
                           const formula::OvenTable& said,
                           const formula::OvenTable& file) {
  const formula::OvenTable table = laid_over(said, file);
  OvenAsked out;
  out.oven = oven_of(table, out.assumed);
  out.loaf = loaf_of(dough, table, out.assumed);
  out.known = known(table.learned);
  out.room = table.room.value_or(Temperature::from_celsius(usual_room));
  out.typed = table.bake.has_value();
  const auto fits = oven::check(out.loaf, out.oven, table.bake.value_or(4.0 * hour));
  if (!fits) return failure(fits);
  if (table.bake) {
    out.lasts = *table.bake;
    return out;
  }
  const auto through = oven::baked_through(out.loaf, out.oven, out.known.middle);
  if (!through) return never_done(out.oven);
  out.lasts = *through;
  out.assumed.push_back(
      fmt::format("baked until the core has {:.0f} °C", oven::done_core().celsius()));
  const auto covered = oven::check(out.loaf, out.oven, out.lasts);
  if (!covered) return failure(covered);
  return out;
}

}  // namespace barm::service::internal

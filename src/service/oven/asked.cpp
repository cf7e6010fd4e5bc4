#include "service/oven/internal/asked.h"

#include <fmt/format.h>

#include <algorithm>

#include "forecast/bodies.h"
#include "formula/equipment.h"
#include "generated/constants.h"
#include "service/house/equipment.h"

namespace barm::service::internal {

namespace {

constexpr double usual_oven = 230;  // C
constexpr double usual_room = 22;   // C

// As many as the file says; else all pieces, as far as the oven takes them.
int at_once(const formula::OvenTable& table, int pieces, std::vector<std::string>& assumed) {
  if (table.loaves) return *table.loaves;
  if (table.holds && pieces > 0) return std::min(pieces, *table.holds);
  assumed.emplace_back("one loaf at once");
  return 1;
}

oven::Oven oven_of(const formula::OvenTable& table, int pieces, std::vector<std::string>& assumed) {
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
  out.loaves = at_once(table, pieces, assumed);
  out.holds = table.holds;
  if (table.cavity) {
    out.cavity = *table.cavity;
  } else {
    assumed.push_back(fmt::format("a cavity of {:.0f} L", out.cavity.in(litre)));
  }
  if (table.kilowatts) out.power = *table.kilowatts * 1000 * watt;
  return out;
}

// Alcohol that fermentation made until it goes into the oven, for each kilogram of dough.
double fermented_ethanol(const forecast::MiddleDough& forecast) {
  const bool there = !forecast.stops.empty() && forecast.stops.back().reached;
  const auto& state = there ? forecast.stops.back().state : forecast.book.at_end;
  const Amount made = state[kinetics::yeast_gas] * millimole;
  return (constants::yeast::ethanol_per_gas.value.si() * made *
          constants::molar_mass::ethanol.value)
      .in(kilogram);
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

oven::Loaf loaf_of(const forecast::MiddleDough& dough,
                   const formula::OvenTable& table,
                   std::vector<std::string>& assumed) {
  oven::Loaf loaf;
  loaf.form = oven::form_named(table.form).value_or(oven::Form::round);
  if (table.form.empty()) assumed.emplace_back("a round loaf");
  const formula::Bowl& bowl = dough.bowl;
  loaf.mass = bowl.pieces > 0 ? bowl.piece : bowl.dough;
  if (bowl.pieces == 0)
    assumed.emplace_back("all the dough as one loaf, since the file names no pieces");
  forecast::Draw draw;
  draw.bowl = bowl;
  draw.settled = dough.settled;
  loaf.makeup = forecast::makeup_of(draw);
  const double made = fermented_ethanol(dough);
  loaf.makeup.ethanol += made;
  loaf.makeup.carbohydrate = std::max(0.0, loaf.makeup.carbohydrate - made);
  const double rise = dough.stops.empty() ? dough.target : dough.stops.back().rise;
  const double solid = 1 - constants::gas::void_at_start.value.si();
  loaf.gas = std::clamp(1 - solid / std::max(1.0, rise), 0.05, 0.9);
  loaf.room = constants::oven::room.value.si();
  if (!dough.stops.empty()) {
    loaf.room = std::max(0.0, dough.stops.back().room_left);
    loaf.temperature =
        Temperature::from_celsius(std::clamp(dough.stops.back().dough.celsius(), 0.0, 45.0));
  } else {
    assumed.emplace_back("a dough that goes in at its target");
  }
  return loaf;
}

Result<OvenAsked> asked_of(const forecast::MiddleDough& dough,
                           const formula::OvenTable& said,
                           const formula::Bake& bake) {
  using formula::laid_over;
  OvenAsked out;
  formula::OvenTable table = laid_over(said, bake.oven.value_or(formula::OvenTable{}));
  if (bake.house_oven) {
    table = laid_over(table, bake.house_oven->can);
    out.with = bake.house_oven->words;
  }
  out.oven = oven_of(table, dough.bowl.pieces, out.assumed);
  out.loaf = loaf_of(dough, table, out.assumed);
  out.counted = table.loaves || table.holds;
  if (out.counted && dough.bowl.pieces > out.oven.loaves)
    out.loads = (dough.bowl.pieces + out.oven.loaves - 1) / out.oven.loaves;
  out.known = known_of(table.learned);
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

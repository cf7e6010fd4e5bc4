#include <algorithm>
#include <array>
#include <cmath>

#include "generated/constants.h"
#include "oven/bake.h"
#include "oven/internal/lucky.h"
#include "oven/internal/steam_table.h"

namespace barm::oven {

Cooled cool(const Loaf& loaf,
            Baked baked,
            Temperature room,
            Time lasts,
            double transfer_luck,
            const Method& method) {
  namespace c = constants::cooling;
  Bread& bread = baked.bread;
  bread.come_out();
  Around around;
  around.air = around.walls = around.stone = room.celsius();
  // Radiation is in the rack's transfer.
  around.convection = lucky(c::rack, transfer_luck);
  around.emissivity = 0;
  around.vapour = water_pressure(room.celsius());  // the crust is dry: nothing leaves a cold crumb
  around.drying = 0;
  Cooled out;
  const Minute left = baked.course.back();
  const double area = baked.surface_area;
  const double water_at_out = bread.water();
  double now = 0;
  double next_note = 0;
  const double end = lasts.si();
  const double cut_below = std::max(c::cut_below.value.celsius(), room.celsius() + 1);
  const double bag_below = room.celsius() + c::bag_above_room.value.si();
  while (true) {
    if (now >= next_note - 1e-9 || now >= end - 1e-9) {
      Minute minute = left;
      minute.seconds = now;
      minute.core = bread.core();
      minute.surface = bread.surface();
      minute.air = room.celsius();
      minute.loss =
          left.loss + area * (water_at_out - bread.water()) * bread.dry() / loaf.mass.si();
      out.course.push_back(minute);
      next_note += method.note_every * 5;
    }
    // The hottest layer, not the middle alone: early on the crust still warms it.
    const double hottest = *std::max_element(bread.celsius().begin(), bread.celsius().end());
    if (!out.cut && hottest < cut_below) out.cut = Time::from_si(now);
    if (!out.bag && hottest < bag_below) out.bag = Time::from_si(now);
    if (out.bag || now >= end - 1e-9) break;
    const double seconds =
        std::min({2 + 0.02 * now, 5 * method.step, end - now, std::max(1e-6, next_note - now)});
    bread.step(seconds, around);
    bread.dry_through_crust(seconds,
                            c::through_crust.value.si() * constants::oven_heat::drying.value.si() *
                                constants::oven_heat::still.value.si(),
                            around.vapour);
    now += seconds;
  }
  out.loss = out.course.back().loss - left.loss;
  return out;
}

Temperature done_core() { return constants::baking::done_core.value; }

std::optional<Time> baked_through(const Loaf& loaf, const Oven& oven, const Luck& luck) {
  const double wanted = done_core().celsius();
  for (const Time lasts : {1.0 * hour, 4.0 * hour}) {
    for (const Minute& minute : bake(loaf, oven, lasts, luck).course) {
      if (minute.core >= wanted) return Time::from_si(minute.seconds);
    }
  }
  return std::nullopt;
}

Colour colour_of(double share) {
  namespace b = constants::baking;
  if (share < b::light.value.si()) return Colour::pale;
  if (share < b::medium.value.si()) return Colour::light;
  return share < b::dark.value.si() ? Colour::medium : Colour::dark;
}

std::string_view name(Colour colour) {
  constexpr std::array<std::string_view, 4> names = {"pale", "light", "medium", "dark"};
  return names.at(static_cast<std::size_t>(colour));
}

}  // namespace barm::oven

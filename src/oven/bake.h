#pragma once
// One loaf's way through one oven: what a baker asks of it, minute by minute.
#include <vector>

#include "oven/bread.h"
#include "oven/oven.h"

namespace barm::oven {

/// How the loaf stands at a time.
struct Minute {
  double seconds = 0;
  double core = 0, surface = 0, air = 0;             ///< [C]
  double loss = 0;                                   ///< of the dough's mass, 0..1
  double crust = 0;                                  ///< [m]
  double colour = 0;                                 ///< of the full colour, 0..1
  double raw_starch = 1;                             ///< of the core's, 0..1
  double rise = 1;                                   ///< volume over that at going in
  double spring = 0;                                 ///< what it would rise by, with room for it
  double alcohol = 1;                                ///< kept, of what went in
  double alcohol_in_crust = 0;                       ///< of what went in
  double alcohol_at_least = 1, alcohol_at_most = 1;  ///< kept, with the pump at its reach
  double alcohol_rate = 0, steam_rate = 0;           ///< [kg/s] of one loaf
  double energy = 0;                                 ///< [J] the oven drew so far
};

/// Standard deviations of the pump at which `alcohol_at_least` and `alcohol_at_most` are worked
/// out.
inline constexpr double pump_reach = 1.7;

/// How finely. The usual way is within 0.5 K of a finer one (docs/model/oven.md).
struct Method {
  Mesh mesh;
  double step = 6;  ///< [s] the longest
  double note_every = 60;
};

struct Baked {
  std::vector<Minute> course;  ///< the first at 0
  Bread bread;
  double heat_missing = 0;   ///< of the heat that came in, not found again, 0..1
  double water_missing = 0;  ///< of the water that went in
  double surface_area = 0;   ///< [m2]
  double walls = 0;          ///< [C] of the oven, as it ends
};

/// Of the whole loaf as it goes in.
[[nodiscard]] Mass ethanol_of(const Loaf& loaf);

/// Errors: none; check() it first.
[[nodiscard]] Baked bake(const Loaf& loaf,
                         const Oven& oven,
                         Time lasts,
                         const Luck& luck = {},
                         const Method& method = {});

/// The walls that had so much as a load came out, after the oven has stood empty for so long, set
/// as for the next one.
[[nodiscard]] Temperature walls_after(const Oven& oven,
                                      Temperature left,
                                      Time empty,
                                      const Luck& luck = {});

/// The core at which a loaf is done: 96 C, practice (data: baking.done_core).
[[nodiscard]] Temperature done_core();

/// When the core has that, in whole minutes; empty: not within 4 h.
[[nodiscard]] std::optional<Time> baked_through(const Loaf& loaf,
                                                const Oven& oven,
                                                const Luck& luck = {});

/// The loaf on a rack, from the oven on until it can be bagged, `lasts` at the longest.
struct Cooled {
  std::vector<Minute> course;  ///< `loss` counts from the dough
  double loss = 0;             ///< while cooling, of the dough's mass
  std::optional<Time> cut;     ///< core below 38 C (practice); since the oven
  std::optional<Time> bag;     ///< core within 3 K of the room (practice)
};

[[nodiscard]] Cooled cool(const Loaf& loaf,
                          Baked baked,
                          Temperature room,
                          Time lasts,
                          double transfer_luck = 0,
                          const Method& method = {});

/// How a loaf's gas swells: G(T) = T/T_0 (P - p_w(T_0))/(P - p_w(T)), at constant pressure, its
/// vapour saturated. Source: poling2001. Checked against: tests/oven/bake_test.cpp.
[[nodiscard]] double swells(double from_celsius, double to_celsius);

/// How a crust looks.
enum class Colour { pale, light, medium, dark };
[[nodiscard]] Colour colour_of(double share);
[[nodiscard]] std::string_view name(Colour colour);

}  // namespace barm::oven

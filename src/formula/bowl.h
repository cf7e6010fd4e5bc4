#pragma once
// What is in the bowl: the weigh-out, and what its parts add up to.
#include <array>
#include <span>
#include <string>
#include <vector>

#include "base/result.h"
#include "chemistry/acids.h"
#include "formula/bake.h"
#include "larder/composition.h"

namespace barm::formula {

/// One weighed line.
struct Weighed {
  std::string name;
  Mass plan;             ///< what the bake asks for
  Mass actual;           ///< what was poured; equals plan unless the file says otherwise
  BakersFraction share;  ///< of the bowl's `percent_of`, by actual
  Volume volume;         ///< of a liquid at 20 C, zero for the rest
  bool flour = false;
  bool liquid = false;
  bool levain = false;
};

/// The whole bowl by its actual weights. Concentrations "in the water" are per volume of water +
/// ethanol at 20 C: that is what a culture feels.
struct Bowl {
  std::vector<Weighed> lines;
  Mass dough;
  Mass flour;  ///< the levain's included, as weighed (with its own moisture)
  Mass levain_flour;
  bool percent_of_weighed = false;
  Mass percent_of;  ///< the flour of which percent is: all of it, or what is weighed as flour

  /// "all flour, the levain's too" or "the flour weighed".
  [[nodiscard]] std::string percent_of_what() const;

  Mass liquid;       ///< what a baker calls liquid, the levain's water included
  Mass added_water;  ///< real water added: water of every part but flour's own moisture
  Mass water;        ///< all water, flour's own included
  Mass ethanol;
  Mass salt;
  Mass hexose, sucrose, maltose, lactose;  ///< sugars brought by everything but flour
  Mass slow_hexose, slow_sucrose;          ///< of these, inside whole fruit at first
  Mass glycerol;
  Mass fat;
  Volume liquid_volume;  ///< of the drinks and water as poured together, at 20 C
  Mass liquid_ethanol;   ///< of the drinks and water as poured together
  Volume water_phase;    ///< water + ethanol at 20 C
  std::array<Amount, chemistry::acid_count> acid{};
  double buffering = 0;        ///< [mol/pH] of everything but the acids
  double flour_buffering = 0;  ///< [mol/pH] the flour's part of it
  Ph ph;                       ///< after mixing, all acid of whole fruit being out
  Ph ph_at_first;              ///< the same while all of it is still inside
  Mass free_sulphite, total_sulphite, sorbate, iso_alpha_acids;
  Mass carbon_dioxide;      ///< dissolved, brought by all; at most saturation of the water at 1 atm
  double rise_limit = 4.2;  ///< flour's, averaged by mass
  double pentosan_rise = 0;  ///< of that, what pentosans hold above the start
  double protease = 0;       ///< [kg/kg flour] of raw fruit that dissolves gluten
  double ash = 0.0055;       ///< of the flour, by mass
  /// That vanishes on mixing the drinks with one another and the water. Below zero when a weak
  /// drink is thinned: ethanol takes up least room near 15 % by weight, and swells a little on
  /// either side.
  Volume contraction;
  double water_activity = 1;
  int pieces = 0;
  Mass piece, baked_piece;
  std::vector<std::string>
      cautions;  ///< formula/cautions.h; left empty when compositions are given
  std::vector<std::string>
      doubts;  ///< what is assumed because the larder does not know it; the same

  [[nodiscard]] double liquid_hydration() const;  ///< liquid over flour, as bakers say it
  [[nodiscard]] double real_hydration() const;    ///< real added water over flour
  [[nodiscard]] MassFraction ethanol_of_dough() const;
  [[nodiscard]] Concentration ethanol_in_water() const;
  [[nodiscard]] AlcoholByVolume strength_of_liquid()
      const;  ///< of the drinks and water as poured together
  [[nodiscard]] Concentration salt_in_water() const;
  [[nodiscard]] Concentration sugar_in_water() const;
};

/// Weighs the bake out and adds it up, with the given composition of each portion (same order as
/// bake.bowl), so that a forecast may draw bottles and ferment the levain. Everything but `ph`,
/// `carbon_dioxide`, `contraction`, the volumes and `water_activity` is a sum over the lines. pH is
/// that of chemistry::mixed_ph at the ionic strength of the salt in all the water. Errors:
/// bad_input (no flour, no size, a line below zero, other number of compositions than lines).
/// Checked against: tests/formula/bowl_test.cpp, tests/laws/formula_test.cpp.
[[nodiscard]] Result<Bowl> in_the_bowl(const Bake& bake,
                                       std::span<const larder::Composition> settled);

/// The same with every composition as settle() gives it, with cautions and doubts.
[[nodiscard]] Result<Bowl> in_the_bowl(const Bake& bake);

/// The typical composition of each portion of the bowl. The levain of a [levain] table is as ripe
/// as the larder's starter at its peak, in its own flour and hydration; a forecast ferments it
/// instead.
[[nodiscard]] Result<std::vector<larder::Composition>> settle(const Bake& bake);

/// The same bake with these weights in the bowl, in grams from here on: what was weighed, the
/// pieces' size and every percentage are let go; the number of pieces stays.
[[nodiscard]] Bake by_weight(const Bake& bake, std::span<const Mass> masses);

}  // namespace barm::formula

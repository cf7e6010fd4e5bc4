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
  Mass plan;                ///< what the bake asks for
  Mass actual;              ///< what was poured; equals plan unless the file says otherwise
  BakersFraction share;     ///< of all flour, by actual
  Volume volume;            ///< of a liquid at 20 C, zero for the rest
  bool flour = false;
  bool liquid = false;
  bool levain = false;
};

/// The whole bowl by its actual weights. Concentrations "in the water" are per volume of water + ethanol at
/// 20 C: that is what a culture feels.
struct Bowl {
  std::vector<Weighed> lines;
  Mass dough;
  Mass flour;               ///< the levain's included, as weighed (with its own moisture)
  Mass levain_flour;
  Mass liquid;              ///< what a baker calls liquid, the levain's water included
  Mass added_water;         ///< real water added: water of every part but flour's own moisture
  Mass water;               ///< all water, flour's own included
  Mass ethanol;
  Mass salt;
  Mass hexose, sucrose, maltose, lactose;  ///< sugars brought by everything but flour
  Mass glycerol;
  Mass fat;
  Volume water_phase;       ///< water + ethanol at 20 C
  std::array<Amount, chemistry::acid_count> acid{};
  double buffering = 0;         ///< [mol/pH] of everything but the acids
  double flour_buffering = 0;   ///< [mol/pH] the flour's part of it
  Ph ph;                        ///< after mixing
  Mass free_sulphite, total_sulphite, sorbate, iso_alpha_acids;
  Mass carbon_dioxide;          ///< dissolved, brought by drinks and levain; at most saturation at 1 atm
  double rise_limit = 4.2;      ///< flour's, averaged by mass
  double ash = 0.0055;          ///< of the flour, by mass
  Volume contraction;           ///< that vanishes on mixing the drinks with the water
  double water_activity = 1;
  int pieces = 0;
  Mass piece, baked_piece;
  std::vector<std::string> cautions;
  std::vector<std::string> doubts;   ///< what is assumed because the larder does not know it

  [[nodiscard]] double liquid_hydration() const;   ///< liquid over flour, as bakers say it
  [[nodiscard]] double real_hydration() const;     ///< real added water over flour
  [[nodiscard]] MassFraction ethanol_of_dough() const;
  [[nodiscard]] Concentration ethanol_in_water() const;
  [[nodiscard]] AlcoholByVolume strength_of_liquid() const;  ///< of the drinks and water as poured together
  [[nodiscard]] Concentration salt_in_water() const;
  [[nodiscard]] Concentration sugar_in_water() const;
};

/// Weighs the bake out and adds it up, with the given composition of each portion (same order as bake.bowl),
/// so that a forecast may draw bottles and ferment the levain.
[[nodiscard]] Result<Bowl> in_the_bowl(const Bake& bake, std::span<const larder::Composition> settled);

/// The same with every composition at its typical value.
[[nodiscard]] Result<Bowl> in_the_bowl(const Bake& bake);

/// The typical composition of each portion of the bowl.
[[nodiscard]] Result<std::vector<larder::Composition>> settle(const Bake& bake);

}  // namespace barm::formula

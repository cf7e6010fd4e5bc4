#pragma once
// What a kilogram of one portion brings to the bowl; the bowl and the solver add up the same list.
#include <array>
#include <cstddef>

#include "chemistry/acids.h"
#include "formula/bake.h"
#include "larder/composition.h"

namespace barm::formula::internal {

/// One thing that adds up by mass.
enum class Part {
  mass,  ///< [kg]
  flour,
  levain_flour,  ///< [kg] as weighed, with its own moisture
  liquid,        ///< [kg] as bakers say it, a levain's water included
  added_water,   ///< [kg] water but flour's own moisture
  water,
  ethanol,
  salt,
  hexose,
  sucrose,
  maltose,
  lactose,
  glycerol,
  fat,  ///< [kg]
  poured_water,
  poured_ethanol,
  poured_solids,  ///< [kg] of drinks and water alone
  poured_fat,     ///< [kg] within poured_solids
  free_sulphite,
  total_sulphite,
  sorbate,
  iso_alpha_acids,
  carbon_dioxide,  ///< [kg]
  buffering,
  flour_buffering,  ///< [mol/pH]
  ash,              ///< [kg] of flours
  rising_flour,
  rise,           ///< [kg] flour whose rise limit is known; that times the limit
  pentosan_rise,  ///< [kg] that times what pentosans hold above the start
  protease,       ///< [kg] of raw fruit that dissolves gluten
  slow_hexose,
  slow_sucrose,  ///< [kg] inside whole fruit, among hexose and sucrose
  first_acid,    ///< [mol] from here on one for each chemistry::Acid
};

inline constexpr std::size_t part_count =
    static_cast<std::size_t>(Part::first_acid) + chemistry::acid_count;

struct Contents {
  std::array<double, part_count> value{};

  [[nodiscard]] double operator[](Part part) const { return value[static_cast<std::size_t>(part)]; }

  [[nodiscard]] double& operator[](Part part) { return value[static_cast<std::size_t>(part)]; }

  [[nodiscard]] double acid(std::size_t k) const {
    return value[static_cast<std::size_t>(Part::first_acid) + k];
  }

  [[nodiscard]] double& acid(std::size_t k) {
    return value[static_cast<std::size_t>(Part::first_acid) + k];
  }
};

/// Holds a culture in flour and water: the levain, or a starter named directly.
[[nodiscard]] bool is_starter(const Portion& portion);

/// Gives off its sugar and acid over hours.
[[nodiscard]] bool is_whole_fruit(const Portion& portion);

/// kg of flour in a kilogram of the portion: 1 for flour, 1 / (1 + hydration) for a starter.
[[nodiscard]] double flour_share(const Portion& portion, const larder::Composition& composition);

/// The larder's property of each acid but carbonic.
[[nodiscard]] larder::Property property_of(chemistry::Acid acid);

[[nodiscard]] Contents per_kilogram(const Portion& portion, const larder::Composition& composition);

/// A line of no water, for a bowl to which some may have to be added.
[[nodiscard]] Portion no_water();

/// Volume at 20 C of drinks and water as poured together [m3].
///
///     V = (m_w + m_e) / rho(p,20) + 0.62 mL/g (m_s - m_fat) + 1.08 mL/g m_fat,
///     p = m_e / (m_e + m_w)
///
/// Source: oiml_r22, remembered.
[[nodiscard]] double poured_volume(double water, double ethanol, double solids, double fat);

/// Volume at 20 C of so much water and ethanol [m3]; 0 of nothing.
[[nodiscard]] double mixture_volume(double water, double ethanol);

}  // namespace barm::formula::internal

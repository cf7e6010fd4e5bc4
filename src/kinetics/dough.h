#pragma once
// What a culture finds in a kilogram of freshly mixed dough.
#include <array>
#include <cstddef>

#include "chemistry/acids.h"

namespace barm::kinetics {

/// Per kilogram of dough. T is double, or several doughs at once. Everything is brought by the
/// bowl; what the parameters scale (flour's own sugar, lag, cell mass) is applied when the run
/// starts.
template <class T>
struct DoughOf {
  T water{0.0};          ///< [kg] all of it, flour's moisture included
  T water_phase{0.0};    ///< [L] water + ethanol at 20 C
  T ethanol{0.0};        ///< [g]
  T salt{0.0};           ///< [g]
  T flour{0.0};          ///< [kg] as weighed
  T added_hexose{0.0};   ///< [mmol] from drinks, honey, sugar (sucrose as its two hexoses)
  T added_maltose{0.0};  ///< [mmol hexose] from beer, malt
  T lactate{0.0};        ///< [mmol]
  T acetate{0.0};        ///< [mmol]
  std::array<T, chemistry::acid_count>
      acid{};              ///< [mmol] other acids; lactic and acetic stay 0 here
  T buffering{0.0};        ///< [mmol/pH] of everything but acids and flour
  T flour_buffering{0.0};  ///< [mmol/pH] of flour above pH 4
  T ph{6.0};               ///< after mixing
  T free_sulphite{0.0};    ///< [mg]
  T sorbate{0.0};          ///< [mg] as sorbic acid
  T iso_alpha_acids{0.0};  ///< [umol]
  T carbon_dioxide{0.0};   ///< [mmol] brought dissolved
  T wild_yeast{0.0};       ///< [cells]
  T bacteria{0.0};         ///< [cells]
  T bakers_yeast{0.0};     ///< [g dry]
  T lag{0.25};             ///< h0 of the levain's organisms
  T packet{1.0};    ///< share of the baker's yeast out of its packet: the rest woke up in a levain
  T strength{1.0};  ///< of the gluten, 0..1
  T rise_limit{4.2};     ///< largest volume ratio that the gluten of this flour holds
  T pentosan_rise{0.0};  ///< what the pentosans of rye hold above the start, in volumes
  T hydration{0.7};      ///< real water over flour
  T protease{0.0};       ///< [kg/kg flour] of raw fruit that dissolves gluten
  T slow_hexose{0.0};    ///< [mmol] in whole fruit at mixing: it comes out over hours
  T slow_acid{0.0};      ///< [mmol] of charge in it that comes out likewise
};

using Dough = DoughOf<double>;

/// What may hold a dough back, each of which can be taken away in thought: what is in the bowl; how
/// hungry its levain is; how little its flour holds; the place.
enum class Factor {
  alcohol,
  salt,
  sugar,
  acid,
  sulphite,
  sorbate,
  hops,
  hunger,
  weak_flour,
  cold,
  warmth
};
inline constexpr std::size_t factor_count = static_cast<std::size_t>(Factor::warmth) + 1;

}  // namespace barm::kinetics

#include "kinetics/parameter.h"

#include <cmath>

#include "base/require.h"
#include "generated/constants.h"
#include "units/units.h"

namespace barm::kinetics {

namespace {

constexpr auto per_hour = 1.0 / hour;
constexpr auto gram_per_litre = gram / litre;
constexpr auto milligram_per_litre = milligram / litre;
constexpr auto millimole_per_litre = millimole / litre;
constexpr auto millimole_per_gram = millimole / gram;

template <class Quantity, class Unit>
constexpr Prior prior(Parameter parameter,
                      std::string_view name,
                      const data::Sourced<Quantity>& constant,
                      Unit unit) {
  return {parameter, name, constant.value.in(unit), constant.doubt, constant.source};
}

using P = Parameter;
namespace wild = constants::wild_yeast;
namespace bakers = constants::bakers_yeast;
namespace bacteria = constants::bacteria;

const Prior table[] = {
    prior(P::wild_growth, "wild_yeast.growth", wild::growth, per_hour),
    prior(P::wild_ethanol_half, "wild_yeast.ethanol_half", wild::ethanol_half, gram_per_litre),
    prior(P::wild_ethanol_end, "wild_yeast.ethanol_end", wild::ethanol_end, gram_per_litre),
    prior(P::wild_salt_half, "wild_yeast.salt_half", wild::salt_half, gram_per_litre),
    prior(P::wild_sugar_half, "wild_yeast.sugar_half", wild::sugar_half, gram_per_litre),
    prior(P::wild_sulphite_half,
          "wild_yeast.sulphite_half",
          wild::sulphite_half,
          milligram_per_litre),
    prior(P::wild_acetic_half, "wild_yeast.acetic_half", wild::acetic_half, millimole_per_litre),
    prior(P::wild_sorbate_half, "wild_yeast.sorbate_half", wild::sorbate_half, milligram_per_litre),
    prior(
        P::wild_gas_of_growth, "wild_yeast.gas_of_growth", wild::gas_of_growth, millimole_per_gram),
    prior(P::wild_gas_of_upkeep,
          "wild_yeast.gas_of_upkeep",
          wild::gas_of_upkeep,
          millimole_per_gram / hour),
    prior(P::wild_cell_mass, "wild_yeast.cell_mass", wild::cell_mass, gram),
    prior(P::bakers_growth, "bakers_yeast.growth", bakers::growth, per_hour),
    prior(
        P::bakers_ethanol_half, "bakers_yeast.ethanol_half", bakers::ethanol_half, gram_per_litre),
    prior(P::bakers_ethanol_end, "bakers_yeast.ethanol_end", bakers::ethanol_end, gram_per_litre),
    prior(P::bakers_salt_half, "bakers_yeast.salt_half", bakers::salt_half, gram_per_litre),
    prior(P::bakers_sugar_half, "bakers_yeast.sugar_half", bakers::sugar_half, gram_per_litre),
    prior(P::bakers_sulphite_half,
          "bakers_yeast.sulphite_half",
          bakers::sulphite_half,
          milligram_per_litre),
    prior(P::bakers_acetic_half,
          "bakers_yeast.acetic_half",
          bakers::acetic_half,
          millimole_per_litre),
    prior(P::bakers_sorbate_half,
          "bakers_yeast.sorbate_half",
          bakers::sorbate_half,
          milligram_per_litre),
    prior(P::bakers_gas_of_growth,
          "bakers_yeast.gas_of_growth",
          bakers::gas_of_growth,
          millimole_per_gram),
    prior(P::bakers_gas_of_upkeep,
          "bakers_yeast.gas_of_upkeep",
          bakers::gas_of_upkeep,
          millimole_per_gram / hour),
    prior(P::bacteria_growth, "bacteria.growth", bacteria::growth, per_hour),
    prior(
        P::bacteria_ethanol_half, "bacteria.ethanol_half", bacteria::ethanol_half, gram_per_litre),
    prior(P::bacteria_ethanol_end, "bacteria.ethanol_end", bacteria::ethanol_end, gram_per_litre),
    prior(P::bacteria_salt_half, "bacteria.salt_half", bacteria::salt_half, gram_per_litre),
    prior(P::bacteria_sugar_half, "bacteria.sugar_half", bacteria::sugar_half, gram_per_litre),
    prior(P::bacteria_sulphite_half,
          "bacteria.sulphite_half",
          bacteria::sulphite_half,
          milligram_per_litre),
    prior(P::bacteria_acetic_half,
          "bacteria.acetic_half",
          bacteria::acetic_half,
          millimole_per_litre),
    prior(P::bacteria_hops_half, "bacteria.hops_half", bacteria::hops_half, micromole / litre),
    prior(P::bacteria_cells_per_hexose,
          "bacteria.cells_per_hexose",
          bacteria::cells_per_hexose,
          gram / millimole),
    prior(P::bacteria_upkeep, "bacteria.upkeep", bacteria::upkeep, millimole_per_gram / hour),
    prior(P::bacteria_cell_mass, "bacteria.cell_mass", bacteria::cell_mass, gram),
    prior(P::warm_toxicity, "stress.warm_toxicity", constants::stress::warm_toxicity, 1.0 / kelvin),
    prior(P::death, "stress.death", constants::stress::death, per_hour),
    prior(P::sulphite_half_life,
          "stress.sulphite_half_life",
          constants::stress::sulphite_half_life,
          hour),
    prior(P::lag_scale, "lag.scale", constants::lag::scale, one),
    prior(P::bakers_lag, "lag.bakers_yeast", constants::lag::bakers_yeast, one),
    prior(P::free_sugar, "flour.free_sugar", constants::flour::free_sugar, millimole / kilogram),
    prior(P::maltose_pool,
          "flour.maltose_pool",
          constants::flour::maltose_pool,
          millimole / kilogram),
    prior(P::amylase, "flour.amylase", constants::flour::amylase, per_hour),
    prior(P::void_at_start, "gas.void_at_start", constants::gas::void_at_start, one),
    prior(P::surface_leak, "gas.surface_leak", constants::gas::surface_leak, per_hour),
    prior(P::pore_leak, "gas.pore_leak", constants::gas::pore_leak, per_hour),
    prior(P::rise_limit, "gluten.rise_limit", constants::gluten::rise_limit, one),
    prior(P::fading, "gluten.fading", constants::gluten::fading, per_hour),
    prior(P::fading_by_acid, "gluten.fading_by_acid", constants::gluten::fading_by_acid, per_hour),
    prior(P::ethanol_scale, "gluten.ethanol_scale", constants::gluten::ethanol_scale, one),
};

static_assert(std::size(table) == parameter_count);

}  // namespace

std::span<const Prior> priors() { return table; }

Parameters<double> book() {
  Parameters<double> parameters;
  for (const Prior& row : table) parameters[row.parameter] = row.book;
  return parameters;
}

Parameters<double> drawn(numerics::Random& random) {
  Parameters<double> parameters;
  for (const Prior& row : table)
    parameters[row.parameter] = row.book * std::exp(row.doubt * random.normal());
  return parameters;
}

}  // namespace barm::kinetics

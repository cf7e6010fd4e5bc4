#include "kinetics/parameter.h"

#include <cmath>
#include <vector>

#include "base/require.h"
#include "generated/constants.h"
#include "generated/day_one_prior.h"
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
    {P::acid_stop_ph,
     "bacteria.acid_stop_ph",
     bacteria::acid_stop_ph.value.value(),
     bacteria::acid_stop_ph.doubt,
     bacteria::acid_stop_ph.source},
    prior(P::warm_toxicity, "stress.warm_toxicity", constants::stress::warm_toxicity, 1.0 / kelvin),
    prior(P::death, "stress.death", constants::stress::death, per_hour),
    prior(P::sulphite_half_life,
          "stress.sulphite_half_life",
          constants::stress::sulphite_half_life,
          hour),
    prior(P::lag_scale, "lag.scale", constants::lag::scale, one),
    prior(P::hunger, "lag.hunger", constants::lag::hunger, one),
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
    prior(
        P::fading_by_fruit, "gluten.fading_by_fruit", constants::gluten::fading_by_fruit, per_hour),
    prior(P::pentosan_fading, "pentosans.fading", constants::pentosans::fading, per_hour),
    prior(P::dissolving, "gas.dissolving", constants::gas::dissolving, one),
    prior(P::cold_gas, "stress.cold_gas", constants::stress::cold_gas, one),
    prior(P::leaching, "fruit.leaching", constants::fruit::leaching, per_hour),
    prior(P::pace, "place.pace", constants::place::pace, one),
};

static_assert(std::size(table) == parameter_count);

// The place of a parameter by its name in data/.
std::size_t index_of(std::string_view name) {
  for (std::size_t i = 0; i < parameter_count; ++i) {
    if (table[i].name == name) return i;
  }
  require(false, "data/day_one_prior.toml names a parameter there is not");
  return 0;
}

}  // namespace

std::span<const Prior> priors() { return table; }

Parameters<double> book() {
  Parameters<double> parameters;
  for (const Prior& row : table) parameters[row.parameter] = row.book;
  return parameters;
}

double JointPrior::doubt(Parameter parameter) const {
  double variance = 0;
  for (const double f : factor[static_cast<std::size_t>(parameter)]) variance += f * f;
  return std::sqrt(variance);
}

const JointPrior& published() {
  static const JointPrior prior = [] {
    JointPrior alone;
    for (std::size_t i = 0; i < parameter_count; ++i) alone.factor[i][i] = table[i].doubt;
    return alone;
  }();
  return prior;
}

const JointPrior& day_one() {
  static const JointPrior prior = [] {
    JointPrior joint = published();
    namespace shipped = generated::day_one_prior;
    std::vector<std::size_t> taught;
    for (const std::string_view name : shipped::names) taught.push_back(index_of(name));
    for (std::size_t i = 0; i < taught.size(); ++i) {
      joint.centre[taught[i]] = shipped::centre[i];
      joint.factor[taught[i]][taught[i]] = 0;
      for (std::size_t j = 0; j <= i; ++j)
        joint.factor[taught[i]][taught[j]] = shipped::factor[i][j];
    }
    return joint;
  }();
  return prior;
}

Parameters<double> middle(const JointPrior& prior) {
  Parameters<double> parameters = book();
  for (std::size_t i = 0; i < parameter_count; ++i)
    parameters.value[i] *= std::exp(prior.centre[i]);
  return parameters;
}

Parameters<double> drawn(numerics::Random& random, const JointPrior& prior) {
  std::array<double, parameter_count> z{};
  for (double& one : z) one = random.normal();
  Parameters<double> parameters;
  for (std::size_t i = 0; i < parameter_count; ++i) {
    double ln = prior.centre[i];
    for (std::size_t j = 0; j <= i; ++j) ln += prior.factor[i][j] * z[j];
    parameters.value[i] = table[i].book * std::exp(ln);
  }
  return parameters;
}

}  // namespace barm::kinetics

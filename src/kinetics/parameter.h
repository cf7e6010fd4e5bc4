#pragma once
// The numbers of the model that are in doubt: what an ensemble draws and what readings may teach.
// Everything else (shapes, powers, cardinal temperatures) is taken from data/ as it stands.
#include <array>
#include <cstddef>
#include <span>
#include <string_view>

#include "data/source.h"
#include "numerics/random.h"

namespace barm::kinetics {

/// In working units: hours, grams, millimoles, litres; mg/L for sulphite and sorbate, umol/L for
/// hops.
enum class Parameter {
  wild_growth,
  wild_ethanol_half,
  wild_ethanol_end,
  wild_salt_half,
  wild_sugar_half,
  wild_sulphite_half,
  wild_acetic_half,
  wild_sorbate_half,
  wild_gas_of_growth,
  wild_gas_of_upkeep,
  wild_cell_mass,
  bakers_growth,
  bakers_ethanol_half,
  bakers_ethanol_end,
  bakers_salt_half,
  bakers_sugar_half,
  bakers_sulphite_half,
  bakers_acetic_half,
  bakers_sorbate_half,
  bakers_gas_of_growth,
  bakers_gas_of_upkeep,
  bacteria_growth,
  bacteria_ethanol_half,
  bacteria_ethanol_end,
  bacteria_salt_half,
  bacteria_sugar_half,
  bacteria_sulphite_half,
  bacteria_acetic_half,
  bacteria_hops_half,
  bacteria_cells_per_hexose,
  bacteria_upkeep,
  bacteria_cell_mass,
  acid_stop_ph,
  warm_toxicity,
  death,
  sulphite_half_life,
  lag_scale,
  hunger,
  bakers_lag,
  free_sugar,
  maltose_pool,
  amylase,
  void_at_start,
  surface_leak,
  pore_leak,
  rise_limit,
  fading,
  fading_by_acid,
  ethanol_scale,
  fading_by_fruit,
  pentosan_fading,
  dissolving,
  cold_gas,
  leaching,
  pace,
};

inline constexpr std::size_t parameter_count = static_cast<std::size_t>(Parameter::pace) + 1;

/// One value for each Parameter; T is double, or a number that carries derivatives, or several at
/// once.
template <class T>
struct Parameters {
  std::array<T, parameter_count> value{};

  [[nodiscard]] const T& operator[](Parameter parameter) const {
    return value[static_cast<std::size_t>(parameter)];
  }

  [[nodiscard]] T& operator[](Parameter parameter) {
    return value[static_cast<std::size_t>(parameter)];
  }
};

/// What is known of a parameter before any reading: log-normal around `book` with `doubt` in ln.
struct Prior {
  Parameter parameter;
  std::string_view name;  ///< as in `barm source`
  double book;            ///< working units
  double doubt;
  const data::Source* source;
};

/// The priors, in the order of Parameter.
[[nodiscard]] std::span<const Prior> priors();

/// Every parameter at its book value.
[[nodiscard]] Parameters<double> book();

/// What is known of all parameters together: ln(value/book) = centre + factor z, z independent
/// standard normal numbers. `factor` is lower triangular, so that the covariance is factor factor'.
struct JointPrior {
  std::array<double, parameter_count> centre{};
  std::array<std::array<double, parameter_count>, parameter_count> factor{};

  /// Standard deviation of ln(value) of one parameter.
  [[nodiscard]] double doubt(Parameter parameter) const;
};

/// The priors as they stand in the published figures, each by itself.
[[nodiscard]] const JointPrior& published();

/// The same after what bakers expect of known doughs has been taken in, once
/// (data/day_one_prior.toml): what a forecast starts from before any reading. docs/model/prior.md.
[[nodiscard]] const JointPrior& day_one();

/// The parameters at the centre of a prior.
[[nodiscard]] Parameters<double> middle(const JointPrior& prior);

/// One draw from a prior; `parameter_count` normal numbers are taken from `random`.
[[nodiscard]] Parameters<double> drawn(numerics::Random& random,
                                       const JointPrior& prior = published());

}  // namespace barm::kinetics

#pragma once
// What smells: how it leaves water and how much of it is noticed. Data: tables/scents.csv.
#include <optional>
#include <span>
#include <string_view>

#include "data/source.h"

namespace barm::taste {

/// A value that lies between low and high in about nine of ten cases.
struct Between {
  double low = 0, middle = 0, high = 0;

  /// At so many standard deviations above the middle, each side with its own width on a logarithmic
  /// scale; a side that reaches zero or is not there does not move.
  [[nodiscard]] double at(double normal) const;

  /// Standard deviation of the logarithm, of both sides together.
  [[nodiscard]] double doubt() const;
};

/// One compound that smells.
struct Scent {
  std::string_view name, family, descriptor;
  double molar_mass = 0;          ///< [g/mol]
  Between hcp;                    ///< Henry's solubility at 25 C [mol/(m3 Pa)]
  double volatility = 0;          ///< over water's, boiling; (4)
  double log_kow = 0;             ///< log10 of octanol over water
  std::optional<double> pka;      ///< of an acid
  Between threshold;              ///< in water [ug/L]
  std::optional<double> in_wine;  ///< threshold in water with a tenth of alcohol [ug/L]
  Between microbes;               ///< share they leave by the time of baking
  std::string_view hcp_source, kow_source, threshold_source;  ///< keys of data/sources.toml
};

/// All of them, in the order of the table.
[[nodiscard]] std::span<const Scent> scents();

/// Its place in scents() by its full name or the part before the first bracket, or nothing.
[[nodiscard]] std::optional<std::size_t> scent_named(std::string_view name);

/// Amount in a volume of air over that in as much water, at 25 C:
///
///     K = 1 / (Hcp R T)                                                          (3)
///
/// Source: sander2015. Checked against: tests/truth/taste_oracle_test.cpp.
[[nodiscard]] double in_air_over_water(double hcp);

/// How much more readily than water it leaves boiling water:
///
///     a = kH(100 C) / p_water(100 C)                                             (4)
///     ln kH = fit_a + fit_b / T + fit_c ln T          where a fit reaches so far
///     ln kH = ln(55.34 / Hcp) + B (1/T0 - 1/T) + bend (ln(T/T0) + T0/T - 1)     elsewhere, kPa
///
/// Source: brockbank2013, sander2015, guess. Checked against: tests/truth/taste_oracle_test.cpp.
[[nodiscard]] double volatility_over_water(std::size_t scent);

}  // namespace barm::taste

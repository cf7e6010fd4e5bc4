#include "taste/scent.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/require.h"
#include "generated/constants.h"
#include "generated/tables.h"

namespace barm::taste {

namespace {

constexpr double gas_constant = constants::physics::gas_constant.value.si();
constexpr double room = 298.15;
constexpr double boiling = 373.15;
constexpr double boiling_pressure = 101.325;  // kPa
constexpr double moles_of_litre = 55.34;      // of water at 25 C
constexpr double nine_of_ten = 1.645;

double volatility_of(const tables::scents_row& row) {
  if (!std::isnan(row.volatility_boiling)) return row.volatility_boiling;
  if (!std::isnan(row.fit_a)) {
    const double log_of = row.fit_a + row.fit_b / boiling + row.fit_c * std::log(boiling);
    return std::exp(log_of) / boiling_pressure;
  }
  const double bend = constants::oven_scent::bend.value.si();
  const double log_of = std::log(moles_of_litre / row.hcp) + row.slope * (1 / room - 1 / boiling) +
                        bend * (std::log(boiling / room) + room / boiling - 1);
  return std::exp(log_of) / boiling_pressure;
}

std::optional<double> known(double cell) {
  return std::isnan(cell) ? std::nullopt : std::optional(cell);
}

Scent scent_of(const tables::scents_row& row) {
  return {.name = row.name,
          .family = row.family,
          .descriptor = row.descriptor,
          .molar_mass = row.molar_mass,
          .hcp = {row.hcp_low, row.hcp, row.hcp_high},
          .volatility = volatility_of(row),
          .log_kow = row.log_kow,
          .pka = known(row.pka),
          .threshold = {row.threshold_low, row.threshold, row.threshold_high},
          .in_wine = known(row.threshold_in_wine),
          .microbes = {row.left_low, row.left, row.left_high},
          .hcp_source = row.hcp_source,
          .kow_source = row.kow_source,
          .threshold_source = row.threshold_source};
}

}  // namespace

double Between::at(double normal) const {
  const double end = normal < 0 ? low : high;
  if (!(end > 0) || !(middle > 0)) return middle;
  return middle * std::exp(std::abs(normal) * std::log(end / middle) / nine_of_ten);
}

double Between::doubt() const {
  if (!(low > 0) || !(high > low)) return 0;
  return std::log(high / low) / (2 * nine_of_ten);
}

std::span<const Scent> scents() {
  static const std::vector<Scent> all = [] {
    std::vector<Scent> made;
    for (const auto& row : tables::scents) made.push_back(scent_of(row));
    return made;
  }();
  return all;
}

std::optional<std::size_t> scent_named(std::string_view name) {
  const auto all = scents();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Scent& one) {
    return one.name == name || one.name.substr(0, one.name.find(" (")) == name;
  });
  return found == all.end() ? std::nullopt
                            : std::optional(static_cast<std::size_t>(found - all.begin()));
}

double in_air_over_water(double hcp) { return 1 / (hcp * gas_constant * room); }

double volatility_over_water(std::size_t scent) {
  require(scent < scents().size(), "a scent of the table");
  return scents()[scent].volatility;
}

}  // namespace barm::taste

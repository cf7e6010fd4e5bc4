// What scipy_lsoda.py needs of the standard forecast: for each draw, one line of JSON with the
// terms, the state at mixing, its slope there, and the hours to double at a tolerance of 1e-10.
#include <cstdio>
#include <cstdlib>

#include "bench/standard_forecast.h"
#include "kinetics/system.h"

namespace barm::bench {

namespace {

void print(const char* name, double value) { std::printf("\"%s\":%.17g,", name, value); }

void print(const char* name, const kinetics::StateOf<double>& values) {
  std::printf("\"%s\":[", name);
  for (std::size_t i = 0; i < values.size(); ++i)
    std::printf("%s%.17g", i > 0 ? "," : "", values[i]);
  std::printf("],");
}

void print_terms(const kinetics::Terms<double>& t, int acids) {
  print("wild_growth", t.wild.growth);
  print("wild_upkeep_gas", t.wild.upkeep_gas);
  print("wild_gas_of_growth", t.wild.gas_of_growth);
  print("wild_ethanol_half", t.wild.ethanol_half);
  print("wild_ethanol_end", t.wild.ethanol_end);
  print("wild_sugar_half", t.wild.sugar_half);
  print("wild_sulphite_half", t.wild.sulphite_half);
  print("wild_acetic_half", t.wild.acetic_half);
  print("wild_sorbate_half", t.wild.sorbate_half);
  print("bacteria_growth", t.bacteria.growth);
  print("bacteria_upkeep", t.bacteria.upkeep);
  print("bacteria_hexose_per_cells", t.bacteria.hexose_per_cells);
  print("bacteria_ethanol_half", t.bacteria.ethanol_half);
  print("bacteria_ethanol_end", t.bacteria.ethanol_end);
  print("bacteria_sugar_half", t.bacteria.sugar_half);
  print("bacteria_sulphite_half", t.bacteria.sulphite_half);
  print("bacteria_acetic_half", t.bacteria.acetic_half);
  print("bacteria_hops_half", t.bacteria.hops_half);
  print("air", t.gas.air);
  print("capacity", t.gas.capacity);
  print("volume_per_gas", t.gas.volume_per_gas);
  print("gas_free_volume", t.gas.gas_free_volume);
  print("volume_at_start", t.volume_at_start);
  print("amylase", t.amylase);
  print("death", t.death);
  print("sulphite_loss", t.sulphite_loss);
  print("per_litre", t.per_litre);
  print("ethanol_brought", t.ethanol_brought);
  print("lactate_brought", t.lactate_brought);
  print("acetate_brought", t.acetate_brought);
  print("flour_hexose", t.flour_hexose);
  print("lactic_k", t.lactic_k);
  print("acetic_k", t.acetic_k);
  print("sorbic_k", t.sorbic_k);
  print("sulphite_k", t.sulphite_k);
  print("sorbate", t.sorbate);
  print("hops", t.hops);
  print("buffering", t.buffering);
  print("flour_buffering", t.flour_buffering);
  print("surface_leak", t.surface_leak);
  print("pore_leak", t.pore_leak);
  print("rise_above_start", t.rise_above_start);
  print("floor", t.floor);
  print("fading", t.fading);
  print("fading_by_acid", t.fading_by_acid);
  print("ethanol_scale", t.ethanol_scale);
  std::printf("\"acids\":[");
  for (int i = 0; i < acids; ++i) {
    const auto& acid = t.acid[static_cast<std::size_t>(i)];
    std::printf(
        "%s[%.17g,%.17g,%.17g,%.17g]", i > 0 ? "," : "", acid.total, acid.k1, acid.k2, acid.k3);
  }
  std::printf("],");
}

void print_draw(int i) {
  numerics::Random random(5, static_cast<std::uint64_t>(i));
  const auto parameters = kinetics::drawn(random);
  const auto dough = standard_dough();
  const auto terms = kinetics::terms(dough, parameters, celsius, celsius);
  const auto present = kinetics::present(dough);
  const auto y = kinetics::at_mixing(dough, parameters);
  kinetics::StateOf<double> dy;
  kinetics::System<double>(terms, present)(0, y, dy);
  auto proving = standard_proving();
  proving.accuracy.relative = 1e-10;
  proving.accuracy.absolute = 1e-13;
  const auto course = forecast::run(dough, parameters, proving);
  std::printf("{");
  print_terms(terms, present.acids);
  print("begin", y);
  print("slope", dy);
  std::printf("\"ready\":%.12g}\n", course->ready ? course->ready->in(hour) : -1.0);
}

}  // namespace

}  // namespace barm::bench

int main(int argc, char** argv) {
  const int draws = argc > 1 ? std::atoi(argv[1]) : 50;
  for (int i = 0; i < draws; ++i) barm::bench::print_draw(i);
}

#include "kinetics/blend.h"

#include "base/require.h"
#include "chemistry/acids.h"
#include "chemistry/ethanol_water.h"
#include "generated/constants.h"
#include "units/units.h"

namespace barm::kinetics {

using chemistry::Acid;

namespace {

// Shares of the mixture by weight.
struct Mix {
  const DoughState& a;
  const DoughState& b;
  double of_a, of_b;

  [[nodiscard]] double of(double in_a, double in_b) const { return of_a * in_a + of_b * in_b; }

  // A property that goes with something both doughs hold; a's own where neither holds any.
  [[nodiscard]] double weighted(double in_a, double with_a, double in_b, double with_b) const {
    const double all = of(with_a, with_b);
    return all > 0 ? of(in_a * with_a, in_b * with_b) / all : in_a;
  }
};

// Litres that so much water [kg] and ethanol [g] fill at 20 C.
double litres(double water, double ethanol) {
  const double all = water + ethanol / 1000;
  const auto density =
      chemistry::density(MassFraction(ethanol / 1000 / all), Temperature::from_celsius(20));
  require(density.has_value(), "the density of water and ethanol at 20 C");
  return all / density->in(kilogram / litre);
}

double shrinking(const Mix& mix) {
  const Dough& a = mix.a.dough;
  const Dough& b = mix.b.dough;
  return litres(mix.of(a.water, b.water), mix.of(a.ethanol, b.ethanol)) -
         mix.of(litres(a.water, a.ethanol), litres(b.water, b.ethanol));
}

Dough mixed_dough(const Mix& mix) {
  const Dough& a = mix.a.dough;
  const Dough& b = mix.b.dough;
  Dough dough = a;
  for (double Dough::* what : {&Dough::water,           &Dough::water_phase,
                               &Dough::ethanol,         &Dough::salt,
                               &Dough::flour,           &Dough::added_hexose,
                               &Dough::added_maltose,   &Dough::slow_hexose,
                               &Dough::slow_acid,       &Dough::lactate,
                               &Dough::acetate,         &Dough::buffering,
                               &Dough::flour_buffering, &Dough::free_sulphite,
                               &Dough::sorbate,         &Dough::iso_alpha_acids,
                               &Dough::carbon_dioxide,  &Dough::wild_yeast,
                               &Dough::bacteria,        &Dough::bakers_yeast}) {
    dough.*what = mix.of(a.*what, b.*what);
  }
  dough.water_phase += shrinking(mix);
  for (std::size_t i = 0; i < chemistry::acid_count; ++i)
    dough.acid[i] = mix.of(a.acid[i], b.acid[i]);
  for (double Dough::* what : {&Dough::strength,
                               &Dough::rise_limit,
                               &Dough::pentosan_rise,
                               &Dough::protease,
                               &Dough::hydration})
    dough.*what = mix.weighted(a.*what, mix.a.flour, b.*what, mix.b.flour);
  dough.lag = mix.weighted(a.lag, a.wild_yeast, b.lag, b.wild_yeast);
  dough.packet = mix.weighted(a.packet, a.bakers_yeast, b.packet, b.bakers_yeast);
  return dough;
}

// The dough as buffers and acids: its flour, and everything else with the acids.
void add_buffers(const DoughState& part, double share, std::vector<chemistry::Buffered>& buffers) {
  const auto ph = Ph(part.state[acidity]);
  chemistry::Buffered flour;
  flour.mass = share * part.flour * kilogram;
  flour.ph = ph;
  flour.flour = true;
  if (part.flour > 0) flour.buffering = part.dough.flour_buffering / 1000 / part.flour;
  chemistry::Buffered rest;
  const double others = 1 - part.flour;
  rest.mass = share * others * kilogram;
  rest.ph = ph;
  if (others > 0) rest.buffering = part.dough.buffering / 1000 / others;
  for (std::size_t i = 0; i < chemistry::acid_count; ++i)
    rest.acid[i] = share * part.dough.acid[i] * millimole;
  rest.acid[static_cast<std::size_t>(Acid::lactic)] = share * part.lactate() * millimole;
  rest.acid[static_cast<std::size_t>(Acid::acetic)] = share * part.acetate() * millimole;
  buffers.push_back(flour);
  buffers.push_back(rest);
}

Result<double> mixed_ph(const Mix& mix, const Dough& dough) {
  std::vector<chemistry::Buffered> buffers;
  add_buffers(mix.a, mix.of_a, buffers);
  add_buffers(mix.b, mix.of_b, buffers);
  const Molality ionic = Molality::from_si(
      dough.salt / constants::molar_mass::salt.value.in(gram / mole) / dough.water);
  const auto ph = chemistry::mixed_ph(buffers, ionic);
  if (!ph) return failure(ph);
  return ph->value();
}

}  // namespace

double DoughState::ethanol() const {
  return dough.ethanol +
         (state[yeast_gas] * constants::yeast::ethanol_per_gas.value.si() +
          state[bacteria_sugar] * constants::bacteria::ethanol_per_hexose.value.si()) *
             constants::molar_mass::ethanol.value.in(gram / millimole);
}

double DoughState::lactate() const {
  return dough.lactate + state[bacteria_sugar] * constants::bacteria::lactate_per_hexose.value.si();
}

double DoughState::acetate() const {
  return dough.acetate + state[bacteria_sugar] * constants::bacteria::acetate_per_hexose.value.si();
}

Result<DoughState> blend(const DoughState& a, const DoughState& b, double share) {
  require(share >= 0 && share <= 1, "a share of a mixture lies between 0 and 1");
  if (share == 0) return a;
  if (share == 1) return b;
  const Mix mix{a, b, 1 - share, share};
  DoughState both{mixed_dough(mix), a.state, mix.of(a.flour, b.flour)};
  for (const State what : {wild_yeast,
                           bakers_yeast,
                           bacteria,
                           hexose,
                           maltose,
                           maltose_to_come,
                           yeast_gas,
                           bacteria_sugar,
                           gas_held,
                           free_sulphite}) {
    both.state[what] = mix.of(a.state[what], b.state[what]);
  }
  const auto average = [&](State what, State cells) {
    both.state[what] = mix.weighted(a.state[what], a.state[cells], b.state[what], b.state[cells]);
  };
  average(wild_awake, wild_yeast);
  average(bakers_awake, bakers_yeast);
  average(bacteria_awake, bacteria);
  both.state[strength] = mix.weighted(a.state[strength], a.flour, b.state[strength], b.flour);
  both.state[pentosans] = mix.weighted(a.state[pentosans],
                                       a.flour * a.dough.pentosan_rise,
                                       b.state[pentosans],
                                       b.flour * b.dough.pentosan_rise);
  both.state[inside_fruit] = mix.weighted(
      a.state[inside_fruit], a.dough.slow_hexose, b.state[inside_fruit], b.dough.slow_hexose);
  const auto ph = mixed_ph(mix, both.dough);
  if (!ph) return failure(ph);
  both.state[acidity] = both.dough.ph = *ph;
  return both;
}

}  // namespace barm::kinetics

#pragma once
// The right-hand side: how a kilogram of dough changes in an hour. Written once for every number
// type.
//
// Equation numbers refer to docs/model/kinetics.md. Units: hours, grams, millimoles, litres; all
// per kg of dough.
#include <numbers>

#include "generated/constants.h"
#include "generated/tables.h"
#include "kinetics/growth.h"
#include "kinetics/state.h"
#include "kinetics/terms.h"
#include "units/units.h"

namespace barm::kinetics {

template <class T>
class System {
 public:
  using State = StateOf<T>;

  System(const Terms<T>& terms, const Present& present) : t_(terms), present_(present) {}

  /// dy/dt [per hour]; time itself does not enter.
  void operator()(double, const State& y, State& dy) const {
    // What not every dough has; all else is written below.
    for (const std::size_t may_rest : {wild_yeast,
                                       wild_awake,
                                       bakers_yeast,
                                       bakers_awake,
                                       pentosans,
                                       inside_fruit,
                                       free_sulphite})
      dy[may_rest] = T(0.0);
    const Water w = water(y);
    const Food food = food_in(y);
    Ferment ferment;
    if (present_.wild_yeast) {
      const YeastChange change =
          yeast(t_.wild, wild_shape, y[acidity], y[wild_yeast], y[wild_awake], w, food.yeasts());
      dy[wild_yeast] = change.cells;
      dy[wild_awake] = change.awake;
      ferment.yeasts_gas = change.gas;
    }
    if (present_.bakers_yeast) {
      const YeastChange change = yeast(
          t_.bakers, bakers_shape, y[acidity], y[bakers_yeast], y[bakers_awake], w, food.yeasts());
      dy[bakers_yeast] = change.cells;
      dy[bakers_awake] = change.awake;
      ferment.yeasts_gas = ferment.yeasts_gas + change.gas;
    }
    ferment_by_bacteria(y, w, food, ferment, dy);
    use_sugar(y, food, ferment, dy);
    hold_gas(y, w, ferment, dy);
    weaken(y, dy);
    if (present_.whole_fruit) leach(y, dy);
    sour(y, w, ferment, dy);
    if (present_.sulphite) dy[free_sulphite] = -t_.sulphite_loss * y[free_sulphite];
  }

  /// Volume over the volume at the start.
  [[nodiscard]] T rise(const State& y) const {
    return volume(y[gas_held], t_.gas) / t_.volume_at_start;
  }

  /// Ethanol in the water phase [g/L], brought and made.
  [[nodiscard]] T ethanol(const State& y) const {
    return t_.ethanol_brought + (y[yeast_gas] * ethanol_per_gas + y[bacteria_sugar] * lab_ethanol) *
                                    (ethanol_gram_per_millimole * t_.per_litre);
  }

  /// Largest volume ratio the dough would hold now (eq. 14): what gluten and what pentosans hold.
  [[nodiscard]] T limit(const State& y) const { return limit_with(y, ethanol(y)); }

  /// [mmol]
  [[nodiscard]] T lactate(const State& y) const {
    return t_.lactate_brought + y[bacteria_sugar] * lab_lactate;
  }

  /// [mmol]
  [[nodiscard]] T acetate(const State& y) const {
    return t_.acetate_brought + y[bacteria_sugar] * lab_acetate;
  }

 private:
  // What the organisms meet in the water at this moment.
  struct Water {
    T ethanol;      // [g/L]
    T hydrogen;     // [mol/L] 10^-pH
    T lactic_ion;   // share of lactic acid that is dissociated
    T acetic_ion;   // share of acetic acid that is dissociated
    T acetic;       // [mmol/L] undissociated
    T sulphite;     // [mg/L] molecular
    T sorbic;       // [mg/L] undissociated
    T added_sugar;  // [g/L] beyond the flour's own
  };

  // Monod shares of each food (eq. 9), 0..1.
  struct Food {
    T yeasts_hexose, yeasts_maltose, bacteria_hexose, bacteria_maltose;

    [[nodiscard]] T yeasts() const { return yeasts_hexose + yeasts_maltose; }
  };

  // What is fermented in an hour [mmol].
  struct Ferment {
    T yeasts_gas{0.0};
    T bacteria_hexose{0.0}, bacteria_maltose{0.0};  // hexose used from either food

    [[nodiscard]] T bacteria_sugar() const { return bacteria_hexose + bacteria_maltose; }
  };

  struct YeastChange {
    T cells, awake, gas;
  };

  // Shapes that are not in doubt.
  struct YeastShape {
    double ethanol_power, sugar_power, sulphite_power, acetic_power, sorbate_power, ph_low, ph_stop;
  };

  static constexpr double lab_lactate = constants::bacteria::lactate_per_hexose.value.si();
  static constexpr double lab_acetate = constants::bacteria::acetate_per_hexose.value.si();
  static constexpr double lab_ethanol = constants::bacteria::ethanol_per_hexose.value.si();
  static constexpr double lab_gas = constants::bacteria::gas_per_hexose.value.si();
  static constexpr double excreted = constants::bacteria::excreted.value.si();
  static constexpr double gas_per_hexose = constants::yeast::gas_per_hexose.value.si();
  static constexpr double ethanol_per_gas = constants::yeast::ethanol_per_gas.value.si();
  static constexpr double ethanol_gram_per_millimole =
      constants::molar_mass::ethanol.value.in(gram / millimole);
  static constexpr double hexose_gram_per_millimole =
      constants::molar_mass::hexose.value.in(gram / millimole);
  static constexpr double end_power = constants::stress::end_power.value.si();

  static constexpr YeastShape wild_shape{constants::wild_yeast::ethanol_power.value.si(),
                                         constants::wild_yeast::sugar_power.value.si(),
                                         constants::wild_yeast::sulphite_power.value.si(),
                                         constants::wild_yeast::acetic_power.value.si(),
                                         constants::wild_yeast::sorbate_power.value.si(),
                                         constants::wild_yeast::ph_low.value.value(),
                                         constants::wild_yeast::ph_stop.value.value()};
  static constexpr YeastShape bakers_shape{constants::bakers_yeast::ethanol_power.value.si(),
                                           constants::bakers_yeast::sugar_power.value.si(),
                                           constants::bakers_yeast::sulphite_power.value.si(),
                                           constants::bakers_yeast::acetic_power.value.si(),
                                           constants::bakers_yeast::sorbate_power.value.si(),
                                           constants::bakers_yeast::ph_low.value.value(),
                                           constants::bakers_yeast::ph_stop.value.value()};

  [[nodiscard]] Water water(const State& y) const {
    using std::exp;
    Water w;
    w.ethanol = ethanol(y);
    w.hydrogen = exp(y[acidity] * -std::numbers::ln10);
    w.lactic_ion = t_.lactic_k / (t_.lactic_k + w.hydrogen);
    w.acetic_ion = t_.acetic_k / (t_.acetic_k + w.hydrogen);
    w.acetic = acetate(y) * (T(1.0) - w.acetic_ion) * t_.per_litre;
    w.sulphite = w.sorbic = w.added_sugar = T(0.0);
    if (present_.sulphite)
      w.sulphite = y[free_sulphite] * t_.per_litre * w.hydrogen / (w.hydrogen + t_.sulphite_k);
    if (present_.sorbate) w.sorbic = t_.sorbate * w.hydrogen / (w.hydrogen + t_.sorbic_k);
    if (present_.added_sugar) {
      w.added_sugar = numerics::larger(T(0.0), T(y[hexose] - t_.flour_hexose)) *
                      (hexose_gram_per_millimole * t_.per_litre);
    }
    return w;
  }

  [[nodiscard]] Food food_in(const State& y) const {
    constexpr double hexose_half = constants::yeast::hexose_half.value.in(millimole / litre);
    constexpr double maltose_half = constants::yeast::maltose_half.value.in(millimole / litre);
    constexpr double bacteria_half =
        constants::bacteria::sugar_use_half.value.in(millimole / litre);
    const T s = numerics::larger(T(0.0), T(y[hexose] * t_.per_litre));
    const T m = numerics::larger(T(0.0), T(y[maltose] * t_.per_litre));
    Food food;
    food.yeasts_hexose = s / (s + hexose_half);
    food.yeasts_maltose = (T(1.0) - food.yeasts_hexose) * m / (m + maltose_half);
    food.bacteria_maltose = m / (m + bacteria_half);
    food.bacteria_hexose = (T(1.0) - food.bacteria_maltose) * s / (s + bacteria_half);
    return food;
  }

  // 1/g(z) of eq. 5: doses act together as the product of their g, and one division serves them
  // all.
  [[nodiscard]] static T slowing(const T& z, const T& half_speed_dose, double k) {
    return T(1.0) + numerics::power(T(z / half_speed_dose), k);
  }

  // Cells die where ethanol leaves them less than a tenth of their speed (eq. 11).
  [[nodiscard]] T dying(const T& ethanol_factor) const {
    constexpr double below = constants::stress::death_below.value.si();
    return t_.death * numerics::larger(T(0.0), T(T(1.0) - ethanol_factor * (1 / below)));
  }

  // mu = mu_opt g_T g_salt * ease * food * alpha (eq. 1), gas = (a mu + b g ease food) X (eq. 10).
  [[nodiscard]] YeastChange yeast(const YeastTerms<T>& yeast,
                                  const YeastShape& shape,
                                  const T& ph,
                                  const T& cells,
                                  const T& awake,
                                  const Water& w,
                                  const T& food) const {
    const T ethanol_factor = dose(w.ethanol, yeast.ethanol_half, shape.ethanol_power) *
                             before_end(w.ethanol, yeast.ethanol_end, end_power);
    T slowed = slowing(w.acetic, yeast.acetic_half, shape.acetic_power);
    if (present_.added_sugar)
      slowed = slowed * slowing(w.added_sugar, yeast.sugar_half, shape.sugar_power);
    if (present_.sulphite)
      slowed = slowed * slowing(w.sulphite, yeast.sulphite_half, shape.sulphite_power);
    if (present_.sorbate)
      slowed = slowed * slowing(w.sorbic, yeast.sorbate_half, shape.sorbate_power);

    const T ease = ethanol_factor * numerics::ramp(ph, shape.ph_stop, shape.ph_low) / slowed;
    const T eager = ease * food;
    const T mu = yeast.growth * eager;
    return {
        (mu * awake - dying(ethanol_factor)) * cells,
        mu * awake * (T(1.0) - awake),
        (yeast.gas_of_growth * mu * awake + (yeast.upkeep_gas + yeast.cold_gas * awake) * eager) *
            cells};
  }

  // Bacteria: growth as eq. 1; hexose = (mu/Y + m g) X, where acid making outlives growth (eq. 13).
  void ferment_by_bacteria(
      const State& y, const Water& w, const Food& food, Ferment& ferment, State& dy) const {
    namespace lab = constants::bacteria;
    const BacteriaTerms<T>& b = t_.bacteria;
    const T ethanol_factor = dose(w.ethanol, b.ethanol_half, lab::ethanol_power.value.si()) *
                             before_end(w.ethanol, b.ethanol_end, end_power);
    T slowed = slowing(w.acetic, b.acetic_half, lab::acetic_power.value.si());
    if (present_.added_sugar)
      slowed = slowed * slowing(w.added_sugar, b.sugar_half, lab::sugar_power.value.si());
    if (present_.sulphite)
      slowed = slowed * slowing(w.sulphite, b.sulphite_half, lab::sulphite_power.value.si());
    if (present_.hops)
      slowed = slowed * slowing(t_.hops, hops_half(y[acidity]), lab::hops_power.value.si());

    const T ease = ethanol_factor / slowed;
    const T ph = y[acidity] - b.acid_shift;
    const T growth =
        b.growth * ease *
        cardinal_ph(
            ph, lab::ph_min.value.value(), lab::ph_opt.value.value(), lab::ph_max.value.value());
    const T mu_hungry = growth * y[bacteria_awake];  // before food
    const T souring =
        numerics::ramp(ph, lab::acid_stop_ph.value.value(), lab::acid_full_ph.value.value());
    const T use = (mu_hungry * b.hexose_per_cells + b.upkeep * ease * souring) * y[bacteria];
    const T eaten = food.bacteria_maltose + food.bacteria_hexose;
    ferment.bacteria_maltose = use * food.bacteria_maltose;
    ferment.bacteria_hexose = use * food.bacteria_hexose;
    dy[bacteria] = (mu_hungry * eaten - dying(ethanol_factor)) * y[bacteria];
    dy[bacteria_awake] = mu_hungry * eaten * (T(1.0) - y[bacteria_awake]);
  }

  // Hop acids bite less as the dough is less sour: z50 10^(0.97 (pH - 4.5)).
  [[nodiscard]] T hops_half(const T& ph) const {
    using std::exp;
    constexpr double slope = constants::bacteria::hops_per_ph.value.si() * std::numbers::ln10;
    return t_.bacteria.hops_half * exp((ph - 4.5) * slope);
  }

  // Starch gives maltose; bacteria split it, keep most and leave hexose for the yeast; yeasts take
  // hexose.
  void use_sugar(const State& y, const Food& food, const Ferment& ferment, State& dy) const {
    namespace flour = constants::flour;
    const T release =
        t_.amylase * y[maltose_to_come] *
        numerics::ramp(
            y[acidity], flour::amylase_stop_ph.value.value(), flour::amylase_full_ph.value.value());
    const T split = ferment.bacteria_maltose * (1 / (1 - excreted));
    const T yeast_sugar = ferment.yeasts_gas * (1 / gas_per_hexose);
    const T yeasts_maltose = yeast_sugar * food.yeasts_maltose / (food.yeasts() + 1e-30);
    dy[maltose_to_come] = -release;
    dy[maltose] = release - split - yeasts_maltose;
    dy[hexose] = split * excreted - ferment.bacteria_hexose - (yeast_sugar - yeasts_maltose);
    dy[yeast_gas] = ferment.yeasts_gas;
    dy[bacteria_sugar] = ferment.bacteria_sugar();
  }

  // dN/dt = made / (1 + exp((R - L)/w)) - (l_s + l_p min(R/L, 1.3)^10) N (eq. 15)
  void hold_gas(const State& y, const Water& w, const Ferment& ferment, State& dy) const {
    using std::exp;
    namespace gas = constants::gas;
    const T r = rise(y);
    const T most = limit_with(y, w.ethanol);
    const T made = ferment.yeasts_gas + ferment.bacteria_sugar() * lab_gas;
    const T over = numerics::smaller(T((r - most) * (1 / gas::escape_width.value.si())), T(300.0));
    const T fullness = numerics::smaller(T(r / most), T(gas::pore_most.value.si()));
    const T leak =
        t_.surface_leak + t_.pore_leak * numerics::power(fullness, gas::pore_power.value.si());
    dy[gas_held] = made / (T(1.0) + exp(over)) - leak * y[gas_held];
  }

  [[nodiscard]] T limit_with(const State& y, const T& ethanol) const {
    const T mild = numerics::ramp(y[acidity],
                                  constants::gluten::ph_floor.value.value(),
                                  constants::gluten::ph_full.value.value());
    const T f_ph = t_.floor + (T(1.0) - t_.floor) * mild;
    T most = T(1.0) + t_.rise_above_start * y[strength] * f_ph * held_with_ethanol(ethanol);
    if (present_.pentosans) most = most + t_.pentosan_rise * y[pentosans] * soured(y[acidity]);
    return most;
  }

  // Acid helps pentosans as it harms gluten.
  [[nodiscard]] static T soured(const T& ph) {
    namespace rye = constants::pentosans;
    constexpr double mild = rye::held_mild.value.si();
    return T(1.0) -
           numerics::ramp(ph, rye::sour_ph.value.value(), rye::mild_ph.value.value()) * (1 - mild);
  }

  // Straight lines through data/tables/gluten_and_ethanol.csv.
  [[nodiscard]] T held_with_ethanol(const T& ethanol) const {
    const T percent = ethanol * t_.ethanol_scale;
    constexpr auto& rows = tables::gluten_and_ethanol;
    T held(rows[0].held);
    for (std::size_t i = 1; i < std::size(rows); ++i) {
      held =
          held - numerics::ramp(percent, rows[i - 1].strength_percent, rows[i].strength_percent) *
                     (rows[i - 1].held - rows[i].held);
    }
    return held;
  }

  // Gluten fades with time and warmth, sooner where acid lets the flour's proteases work, and salt
  // slows it (eq. 16); pentosans fade with time and warmth (eq. 16a).
  void weaken(const State& y, State& dy) const {
    namespace gluten = constants::gluten;
    const T acid = T(1.0) - numerics::ramp(y[acidity],
                                           gluten::protease_full_ph.value.value(),
                                           gluten::protease_stop_ph.value.value());
    dy[strength] = -(t_.fading + t_.fading_by_acid * acid) * y[strength];
    if (present_.pentosans) dy[pentosans] = -t_.pentosan_fading * y[pentosans];
  }

  // Sugar and acid come out of whole fruit (eq. 26).
  void leach(const State& y, State& dy) const {
    const T out = t_.leaching * y[inside_fruit];
    dy[inside_fruit] = -out;
    dy[hexose] = dy[hexose] + out * t_.slow_hexose;
  }

  // The charge balance, differentiated (eq. 17): d pH/dt = -(z_L dL/dt + z_A dA/dt + out) / B(pH)
  void sour(const State& y, const Water& w, const Ferment& ferment, State& dy) const {
    const T made = ferment.bacteria_sugar();
    T released = made * (w.lactic_ion * lab_lactate + w.acetic_ion * lab_acetate);
    if (present_.whole_fruit) released = released - dy[inside_fruit] * t_.slow_acid;
    dy[acidity] = -released / capacity(y, w);
  }

  // B(pH) [mmol/pH]: flour and other buffers, and every weak acid's own: ln 10 n (<z^2> - <z>^2).
  [[nodiscard]] T capacity(const State& y, const Water& w) const {
    constexpr double ln10 = std::numbers::ln10;
    namespace flour = constants::flour_buffer;
    T b = t_.buffering +
          t_.flour_buffering * numerics::select(y[acidity] < T(flour::bend.value.value()),
                                                T(flour::steeper.value.si()),
                                                T(1.0)) +
          (lactate(y) * w.lactic_ion * (T(1.0) - w.lactic_ion) +
           acetate(y) * w.acetic_ion * (T(1.0) - w.acetic_ion)) *
              ln10;
    for (int i = 0; i < present_.acids; ++i) {
      const AcidTerms<T>& a = t_.acid[static_cast<std::size_t>(i)];
      const T h = w.hydrogen;
      const T p1 = a.k1 * h * h;
      const T p2 = a.k1 * a.k2 * h;
      const T p3 = a.k1 * a.k2 * a.k3;
      const T all = T(1.0) / (h * h * h + p1 + p2 + p3);
      const T mean = (p1 + p2 * 2.0 + p3 * 3.0) * all;
      const T square = (p1 + p2 * 4.0 + p3 * 9.0) * all;
      b = b + a.total * (square - mean * mean) * ln10;
    }
    return b;
  }

  const Terms<T>& t_;
  Present present_;
};

/// Hexose that yeasts and bacteria have turned into gas, alcohol and acid so far [mmol].
template <class T>
[[nodiscard]] T hexose_fermented(const StateOf<T>& y) {
  return y[yeast_gas] * (1 / constants::yeast::gas_per_hexose.value.si()) + y[bacteria_sugar];
}

/// The state at mixing: the flour's own sugar, the cells by their mass, the lag.
///     alpha_0 = q_0 / (1 + q_0) = exp(-h_0)
/// Baker's yeast sleeps as it comes from its packet; what a levain was raised with is awake as that
/// is.
template <class T>
[[nodiscard]] StateOf<T> at_mixing(const DoughOf<T>& dough, const Parameters<T>& p) {
  using std::exp;
  StateOf<T> y{};
  y[wild_yeast] = dough.wild_yeast * p[Parameter::wild_cell_mass];
  y[bacteria] = dough.bacteria * p[Parameter::bacteria_cell_mass];
  y[bakers_yeast] = dough.bakers_yeast;
  y[wild_awake] = exp(-dough.lag * p[Parameter::lag_scale]);
  y[bacteria_awake] = y[wild_awake];
  y[bakers_awake] = exp(-dough.packet * p[Parameter::bakers_lag] -
                        (T(1.0) - dough.packet) * dough.lag * p[Parameter::lag_scale]);
  y[hexose] = p[Parameter::free_sugar] * dough.flour + dough.added_hexose;
  y[maltose] = dough.added_maltose;
  y[maltose_to_come] = p[Parameter::maltose_pool] * dough.flour;
  y[gas_held] = dough.carbon_dioxide;
  y[strength] = dough.strength;
  y[acidity] = dough.ph;
  y[free_sulphite] = dough.free_sulphite;
  // None of what a dough has not: it must leave no trace beside doughs that have it.
  const T inside = dough.slow_hexose * dough.slow_hexose + dough.slow_acid * dough.slow_acid;
  y[pentosans] = numerics::select(T(0.0) < dough.pentosan_rise, T(1.0), T(0.0));
  y[inside_fruit] = numerics::select(T(0.0) < inside, T(1.0), T(0.0));
  return y;
}

}  // namespace barm::kinetics

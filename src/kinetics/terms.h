#pragma once
// Everything of the right-hand side that does not change while the temperature holds: worked out
// once a stage.
#include "kinetics/dough.h"
#include "kinetics/gas.h"
#include "kinetics/parameter.h"
#include "units/fraction.h"

namespace barm::kinetics {

/// What decides the speed of one kind of yeast at this temperature in this dough.
template <class T>
struct YeastTerms {
  T growth;                     ///< [1/h] mu_opt g_T g_salt
  T upkeep_gas;                 ///< [mmol/(g h)] b g_T,upkeep g_salt
  T cold_gas;                   ///< [mmol/(g h)] that cells used to the dough make without growing
  T gas_of_growth;              ///< [mmol/g]
  T ethanol_half, ethanol_end;  ///< [g/L] at this temperature
  T sugar_half;                 ///< [g/L]
  T sulphite_half;              ///< [mg/L] molecular
  T acetic_half;                ///< [mmol/L] undissociated
  T sorbate_half;               ///< [mg/L] undissociated
};

template <class T>
struct BacteriaTerms {
  T growth;            ///< [1/h]
  T upkeep;            ///< [mmol hexose/(g h)]
  T hexose_per_cells;  ///< [mmol/g]
  T acid_shift;        ///< [pH] how much sooner acid stops them than by published figures
  T ethanol_half, ethanol_end;
  T sugar_half, sulphite_half, acetic_half;
  T hops_half;  ///< [umol/L] at pH 4.5
};

/// One dissociating acid of the drinks: total and the constants of its steps.
template <class T>
struct AcidTerms {
  T total{0.0};                 ///< [mmol]
  T k1{0.0}, k2{0.0}, k3{0.0};  ///< [mol/L]; 0 for a step it does not have
};

template <class T>
struct Terms {
  YeastTerms<T> wild, bakers;
  BacteriaTerms<T> bacteria;
  GasTerms<T> gas;
  T volume_at_start;                   ///< [L] against which a rise is measured
  T amylase;                           ///< [1/h]
  T death;                             ///< [1/h]
  T sulphite_loss;                     ///< [1/h]
  T per_litre;                         ///< [1/L] one over the water phase
  T ethanol_brought;                   ///< [g/L]
  T lactate_brought, acetate_brought;  ///< [mmol]
  T flour_hexose;                      ///< [mmol] the flour's own free sugar: not counted as added
  T lactic_k, acetic_k, sorbic_k;      ///< [mol/L]
  T sulphite_k;                        ///< [mol/L] of SO2 . H2O at this strength and temperature
  T sorbate;                           ///< [mg/L]
  T hops;                              ///< [umol/L]
  T buffering, flour_buffering;        ///< [mmol/pH]
  T surface_leak, pore_leak;           ///< [1/h]
  T rise_above_start;                  ///< R_max - 1 of this flour's gluten with so much water
  T floor;                             ///< share of gas-holding left at pH 3.7
  T fading, fading_by_acid;            ///< [1/h] raw fruit's own proteases among the former
  T pentosan_rise, pentosan_fading;    ///< volumes; [1/h]
  T leaching;                          ///< [1/h]
  T slow_hexose, slow_acid;            ///< [mmol]
  T ethanol_scale;  ///< [1/(g/L)] brings ethanol to the % vol of the gluten table
  std::array<AcidTerms<T>, chemistry::acid_count> acid;
};

/// Which terms a dough needs at all; the same for every dough run together.
struct Present {
  bool wild_yeast = true;
  bool bakers_yeast = false;
  bool sulphite = false;
  bool sorbate = false;
  bool hops = false;
  bool added_sugar = false;
  bool pentosans = false;
  bool whole_fruit = false;
  int acids = 0;  ///< the first so many entries of Terms::acid are in use
};

/// How a vessel shapes the loss of gas through the surface: 1 for a tub, more for a small sample.
struct Vessel {
  double surface = 1;
};

/// What of a dough's terms holds at any temperature, worked out once a run.
template <class T>
struct DoughTerms {
  Terms<T> still{};                         ///< without what goes by warmth
  T wild_salt, bakers_salt, bacteria_salt;  ///< share of its speed that salt leaves each
  T shield;                                 ///< by which salt and sugar slow the fading of gluten
  AlcoholByVolume strength;                 ///< of the water phase at mixing
};

/// `start_celsius`: the temperature at mixing, at which the volume at the start is worked out.
template <class T>
[[nodiscard]] DoughTerms<T> dough_terms(const DoughOf<T>& dough,
                                        const Parameters<T>& parameters,
                                        double start_celsius,
                                        const Vessel& vessel = {});

/// The terms of the same dough at one temperature. Range: -5..60 C.
template <class T>
[[nodiscard]] Terms<T> terms_at(double celsius,
                                const DoughTerms<T>& of,
                                const DoughOf<T>& dough,
                                const Parameters<T>& parameters);

/// Both at once.
template <class T>
[[nodiscard]] Terms<T> terms(const DoughOf<T>& dough,
                             const Parameters<T>& parameters,
                             double celsius,
                             double start_celsius,
                             const Vessel& vessel = {});

template <class T>
[[nodiscard]] Present present(const DoughOf<T>& dough);

extern template DoughTerms<double> dough_terms(const DoughOf<double>&,
                                               const Parameters<double>&,
                                               double,
                                               const Vessel&);
extern template Terms<double> terms_at(double,
                                       const DoughTerms<double>&,
                                       const DoughOf<double>&,
                                       const Parameters<double>&);
extern template Terms<double> terms(
    const DoughOf<double>&, const Parameters<double>&, double, double, const Vessel&);
extern template Present present(const DoughOf<double>&);

}  // namespace barm::kinetics

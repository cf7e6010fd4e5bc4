#pragma once
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "base/result.h"
#include "units/fraction.h"
#include "units/quantity.h"

namespace barm::chemistry {

/// The acids a drink or a dough is used; the order of data/tables/acids.csv.
enum class Acid { lactic, acetic, tartaric, malic, citric, succinic, gluconic, carbonic };
inline constexpr std::size_t acid_count = static_cast<std::size_t>(Acid::carbonic) + 1;

/// Thermodynamic pKa values of an acid at 25 C, in order; one for each step it has.
/// Checked against: tests/truth/acids_test.cpp.
[[nodiscard]] std::span<const double> pka_at_zero(Acid acid);

/// The same at the ionic strength of a dough's water [mol/kg], on the scale of the activity of H+.
///
///     pKa(I) = pKa + (2z-1) 0.509 ( sqrt(I)/(1+sqrt(I)) - 0.3 I )   (Davies)
///
/// z is the charge of the acid form. Range: I to 0.5 mol/kg; used beyond it, not checked.
/// Source: remembered.
/// Checked against: tests/truth/acids_test.cpp.
[[nodiscard]] std::vector<double> pka(Acid acid, Molality ionic_strength);

/// Molar mass of the free acid.
[[nodiscard]] MolarMass molar_mass(Acid acid);

/// Mean charge per molecule that dissociation has set free at this pH (0 .. number of steps).
///
///     z(pH) = sum_j j w_j / sum_j w_j,   w_j = 10^(j pH - pKa_1 - ... - pKa_j)
///
/// Checked against: tests/laws/acids_test.cpp.
[[nodiscard]] double dissociated(Acid acid, Ph ph, Molality ionic_strength);

/// One part of a mixture, as it was before mixing.
struct Buffered {
  Mass mass{};
  Ph ph{};                                ///< its own
  double buffering = 0;                   ///< [mol/(kg pH)] of all that is not listed in `acid`
  bool flour = false;                     ///< flour buffers half as much again below pH 4
  std::array<Amount, acid_count> acid{};  ///< total of each acid in it
};

/// pH of a mixture by charge balance: what the acids give off moving from their own pH to the
/// common one is taken up by the buffers.
///
///     sum_i { sum_k n_ik [z_k(pH) - z_k(pH_i)] + B_i(pH) - B_i(pH_i) + m_i [w(pH) - w(pH_i)] } = 0
///     B(pH) = buffering m (pH - 4), for flour 1.5 times as steep below pH 4
///     w(pH) = 10^(pH - pKw) - 10^(-pH),  a part's mass standing for its water
///
/// Monotone in pH, so always solvable between the lowest and the highest of the parts; found by
/// bisection and Newton to 1e-10. Acid that fermentation makes is a part without mass at a pH far
/// below its pKa.
///
/// Errors: bad_input when nothing in it buffers at all and no pH follows.
///
/// Checked against: tests/truth/acids_test.cpp, tests/laws/acids_test.cpp.
[[nodiscard]] Result<Ph> mixed_ph(std::span<const Buffered> parts, Molality ionic_strength);

}  // namespace barm::chemistry

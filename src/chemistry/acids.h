#pragma once
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "base/result.h"
#include "units/fraction.h"
#include "units/quantity.h"

namespace barm::chemistry {

enum class Acid { lactic, acetic, tartaric, malic, citric, succinic, gluconic, carbonic };
inline constexpr std::size_t acid_count = static_cast<std::size_t>(Acid::carbonic) + 1;

/// pKa values of an acid at the ionic strength of a dough's water, in order; empty steps are absent.
///     pKa(I) = pKa + (2z-1) 0.509 ( sqrt(I)/(1+sqrt(I)) - 0.3 I ),  z = charge of the acid form   (Davies)
[[nodiscard]] std::span<const double> pka_at_zero(Acid acid);
[[nodiscard]] std::vector<double> pka(Acid acid, Molality ionic_strength);

/// Molar mass of the free acid.
[[nodiscard]] MolarMass molar_mass(Acid acid);

/// Mean charge per molecule that dissociation has set free at this pH (0 .. number of steps).
[[nodiscard]] double dissociated(Acid acid, Ph ph, Molality ionic_strength);

/// One part of a mixture, as it was before mixing.
struct Buffered {
  Mass mass;
  Ph ph;                                          ///< its own
  double buffering = 0;                           ///< [mol/(kg pH)] of all that is not listed in `acid`
  bool flour = false;                             ///< flour buffers half as much again below pH 4
  std::array<Amount, acid_count> acid{};          ///< total of each acid in it
};

/// pH of a mixture by charge balance: what the acids give off moving from their own pH to the common one is
/// taken up by the buffers.
///
///     sum_i { sum_k n_ik [z_k(pH) - z_k(pH_i)] + B_i(pH) - B_i(pH_i) } + m_w ([OH-] - [H+]) changes = 0
///
/// Monotone in pH, so always solvable; found by bisection and Newton to 1e-10.
/// Errors: bad_input when nothing in it buffers at all and no pH follows.
[[nodiscard]] Result<Ph> mixed_ph(std::span<const Buffered> parts, Molality ionic_strength);

}  // namespace barm::chemistry

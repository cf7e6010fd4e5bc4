#pragma once
// What may have held a dough back, how much of each a dough holds, and what published figures say
// it does.
#include <string>
#include <string_view>
#include <vector>

#include "testbakes/cause.h"
#include "testbakes/rivals.h"

namespace barm::testbakes {

/// "g/L", …: the unit of a dose.
[[nodiscard]] std::string_view unit(Cause cause);

/// How much of each cause a dough holds after mixing, in its water: ethanol [g/L]; acid that
/// the drinks brought and flour and levain took up, beta (pH without it - pH), as acetic acid
/// [g/L]; molecular SO2 at the dough's pH [mg/L]; added sugar [g/L]; undissociated sorbic acid at
/// the dough's pH [mg/L]; iso-alpha acids [mg/L]; the base bake's drinks themselves [g/L].
using Doses = std::array<double, cause_count>;

[[nodiscard]] Doses doses_of(const Rival& rival);

/// A dose that is worth asking about: below it the thing is as good as absent.
[[nodiscard]] double noticed(Cause cause);

/// The law of every cause (docs/model/kinetics.md eq. 5): share of the speed that is left,
///     g(z) = 1 / (1 + (z / z50)^k)
struct Bite {
  double half_speed_dose =
      0;             ///< z50 of the published figures; 0 when the published figures have none
  double power = 2;  ///< k
  double doubt = 0;  ///< sd of ln z50
};

/// What the published figures (data/growth.toml) say of wild yeast. Acid has no half-speed dose of
/// its own there above pH 3.5, but for undissociated acetic acid; hops hold back bacteria, not
/// yeast.
[[nodiscard]] Bite published_bite(Cause cause);

/// 1 / (1 + (z / z50)^k)
[[nodiscard]] double speed_left(double dose, double half_speed_dose, double power);

/// What the published figures already answer about a cause in these doughs.
struct Answered {
  Cause cause = Cause::alcohol;
  double largest_dose = 0;
  double speed_left = 1;     ///< by published figures, in the dough that holds most of it
  bool cannot_bite = false;  ///< by published figures it costs less than a twentieth of the speed
  std::string words;         ///< one sentence for the baker
};

/// One line for each cause that is in any of the doughs.
[[nodiscard]] std::vector<Answered> already_answered(const std::vector<Rival>& rivals);

/// The causes a test bake asks about: those its file names, else those that are in its doughs and
/// that the published figures do not already answer. Acid is asked about even so: the published
/// figures have no half-speed dose for it. Where a dough holds the drink itself, something else in
/// it may always be the cause.
[[nodiscard]] std::vector<Cause> asked_about(const TestBake& test,
                                             const std::vector<Answered>& answered);

/// "3.1", "36", "200": two figures, never in powers of ten.
[[nodiscard]] std::string two_figures(double value);

}  // namespace barm::testbakes

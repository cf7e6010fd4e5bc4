#include "testbakes/causes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/require.h"
#include "chemistry/acids.h"
#include "chemistry/sulphite.h"
#include "forecast/dough_of.h"
#include "generated/constants.h"
#include "units/units.h"

namespace barm::testbakes {

using larder::Property;

namespace {

namespace wild = constants::wild_yeast;

// Ours: less than a twentieth of the speed is lost among jars that differ by as much.
constexpr double hardly = 0.95;

// Ours: a power for causes the published figures have no law for; most of its laws have 2 to 3.
constexpr double usual_power = 2;

/// [mmol] of acetic acid that everything but flour and levain brings.
double acetic_brought(const Rival& rival) {
  double moles = 0;
  for (std::size_t i = 0; i < rival.settled.size(); ++i) {
    const formula::Weighed& line = rival.bowl.lines[i];
    if (line.flour || line.levain) continue;
    const Mass mass = rival.settled[i][Property::acetic_acid] * line.actual;
    moles += (mass / chemistry::molar_mass(chemistry::Acid::acetic)).in(millimole);
  }
  return moles;
}

/// beta (pH without the drinks' acid - pH) per litre, what flour and levain have taken up, as the
/// acetic acid that would do the same [g/L].
double acid_dose(const Rival& rival) {
  const auto neutral = forecast::without(rival.bake, rival.settled, kinetics::Factor::acid);
  const auto bowl = formula::in_the_bowl(rival.bake, neutral);
  require(bowl.has_value(), "a bowl that was weighed can be weighed without its acid");
  const double taken_up = 1000 * rival.bowl.buffering * (bowl->ph.value() - rival.bowl.ph.value());
  const double g_per_mol = chemistry::molar_mass(chemistry::Acid::acetic).in(gram / mole);
  return std::max(0.0, taken_up / 1000 * g_per_mol / rival.bowl.water_phase.in(litre));
}

/// [mmol/L] undissociated acetic acid of the drinks.
double undissociated_acetic(const Rival& rival) {
  const auto acetic = chemistry::Acid::acetic;
  const double left = 1 - chemistry::dissociated(acetic, rival.bowl.ph, Molality{});
  return left * acetic_brought(rival) / rival.bowl.water_phase.in(litre);
}

double in_water(Mass mass, const Rival& rival, Mass unit) {
  return mass.in(unit) / rival.bowl.water_phase.in(litre);
}

double molecular_sulphite(const Rival& rival) {
  const auto strength = chemistry::molecular_share(
      rival.bowl.ph, rival.bowl.strength_of_liquid(), rival.bake.bulk_temperature());
  return strength * in_water(rival.bowl.free_sulphite, rival, milligram);
}

std::string amount(Cause cause, double dose) {
  return two_figures(dose) + " " + std::string(unit(cause));
}

std::string sulphite_words(const Rival& most, double dose, bool cannot) {
  const Bite bite = published_bite(Cause::sulphite);
  return fmt::format(
      "at pH {:.1f} only {} of the {} mg/L free sulphite can bite; half speed is put at {} mg/L. "
      "{}",
      most.bowl.ph.value(),
      two_figures(dose),
      two_figures(in_water(most.bowl.free_sulphite, most, milligram)),
      two_figures(bite.half_speed_dose),
      cannot ? "Chemistry says it is not the sulphite: no need to spend flour on it"
             : "It can bite: worth a dough");
}

// Doughs that all hold the drink alike say nothing of it.
bool some_hold_less(const std::vector<Rival>& rivals, double most) {
  return std::any_of(rivals.begin(), rivals.end(), [&](const Rival& rival) {
    return doses_of(rival)[static_cast<std::size_t>(Cause::other)] < 0.9 * most;
  });
}

std::string acid_words(const Rival& most, double dose) {
  return fmt::format(
      "{} bring the dough to pH {:.1f}; wild yeast keeps its speed down to "
      "pH {:.1f}. Acid slows bacteria and softens gluten, which is taken into account",
      amount(Cause::acid, dose),
      most.bowl.ph.value(),
      wild::ph_low.value.value());
}

}  // namespace

std::string_view name(Cause cause) {
  constexpr std::array<std::string_view, cause_count> names{
      "alcohol", "acid", "sulphite", "sugar", "sorbate", "hops", "something else"};
  return names.at(static_cast<std::size_t>(cause));
}

std::string in_a_sentence(Cause cause) {
  if (cause == Cause::other) return "something else in the drink";
  return "the " + std::string(name(cause));
}

std::string_view unit(Cause cause) {
  constexpr std::array<std::string_view, cause_count> units{
      "g/L", "g/L as acetic acid", "mg/L", "g/L", "mg/L", "mg/L", "g/L of the drink"};
  return units.at(static_cast<std::size_t>(cause));
}

Doses doses_of(const Rival& rival) {
  const formula::Bowl& bowl = rival.bowl;
  Doses doses{};
  const auto dose = [&](Cause cause) -> double& { return doses[static_cast<std::size_t>(cause)]; };
  dose(Cause::alcohol) = bowl.ethanol_in_water().in(gram / litre);
  dose(Cause::acid) = acid_dose(rival);
  dose(Cause::sulphite) = molecular_sulphite(rival);
  dose(Cause::sugar) = in_water(bowl.hexose + bowl.sucrose + bowl.maltose, rival, gram);
  dose(Cause::sorbate) =
      in_water(bowl.sorbate, rival, milligram) * chemistry::undissociated_sorbic_share(bowl.ph);
  dose(Cause::hops) = in_water(bowl.iso_alpha_acids, rival, milligram);
  dose(Cause::other) = in_water(rival.drink, rival, gram);
  return doses;
}

double noticed(Cause cause) {
  // Ours: what a levain or a spoon of something brings anyway, or no half-speed dose comes near.
  constexpr std::array<double, cause_count> least{2, 0.12, 0.002, 3, 1, 0.36, 10};
  return least.at(static_cast<std::size_t>(cause));
}

Bite published_bite(Cause cause) {
  switch (cause) {
    case Cause::alcohol:
      return {wild::ethanol_half.value.in(gram / litre),
              wild::ethanol_power.value.si(),
              wild::ethanol_half.doubt};
    case Cause::sulphite:
      return {wild::sulphite_half.value.in(milligram / litre),
              wild::sulphite_power.value.si(),
              wild::sulphite_half.doubt};
    case Cause::sugar:
      return {wild::sugar_half.value.in(gram / litre),
              wild::sugar_power.value.si(),
              wild::sugar_half.doubt};
    case Cause::sorbate:
      return {wild::sorbate_half.value.in(milligram / litre),
              wild::sorbate_power.value.si(),
              wild::sorbate_half.doubt};
    case Cause::acid:
    case Cause::hops:
    case Cause::other:
      break;
  }
  return {0, usual_power, 0};
}

double speed_left(double dose, double half_speed_dose, double power) {
  if (dose <= 0 || half_speed_dose <= 0) return 1;
  return 1 / (1 + std::pow(dose / half_speed_dose, power));
}

std::vector<Answered> already_answered(const std::vector<Rival>& rivals) {
  std::vector<Answered> out;
  for (const Cause cause : all_causes) {
    Answered answer;
    answer.cause = cause;
    const Rival* most = nullptr;
    for (const Rival& rival : rivals) {
      const double dose = doses_of(rival)[static_cast<std::size_t>(cause)];
      if (dose <= answer.largest_dose) continue;
      answer.largest_dose = dose;
      most = &rival;
    }
    if (most == nullptr || answer.largest_dose < noticed(cause)) continue;
    if (cause == Cause::other && !some_hold_less(rivals, answer.largest_dose)) continue;
    const Bite bite = published_bite(cause);
    answer.speed_left = speed_left(answer.largest_dose, bite.half_speed_dose, bite.power);
    if (cause == Cause::acid) {
      answer.speed_left = speed_left(undissociated_acetic(*most),
                                     wild::acetic_half.value.in(millimole / litre),
                                     wild::acetic_power.value.si());
    }
    answer.cannot_bite = answer.speed_left > hardly && cause != Cause::other;
    if (cause == Cause::sulphite) {
      answer.words = sulphite_words(*most, answer.largest_dose, answer.cannot_bite);
    } else if (cause == Cause::acid && answer.cannot_bite) {
      answer.words = acid_words(*most, answer.largest_dose);
    } else if (cause == Cause::hops) {
      answer.words = amount(cause, answer.largest_dose) +
                     ": hop acids hold back bacteria, not yeast; the rise loses little";
    } else if (cause == Cause::other) {
      answer.words =
          "what else the drink holds, such as tannin, is not known: a dough with the drink itself "
          "beside one matched in all that is asked about would show it";
    } else if (answer.cannot_bite) {
      answer.words =
          fmt::format("at most {}; half speed is put at {}: it should cost next to nothing",
                      amount(cause, answer.largest_dose),
                      amount(cause, bite.half_speed_dose));
    } else {
      answer.words = fmt::format(
          "at most {}, which by published figures leaves {:.0f} % of the speed: worth a dough",
          amount(cause, answer.largest_dose),
          100 * answer.speed_left);
    }
    out.push_back(std::move(answer));
  }
  return out;
}

std::vector<Cause> asked_about(const TestBake& test, const std::vector<Answered>& answered) {
  std::vector<Cause> out = test.causes;
  for (const Answered& one : answered) {
    const bool open = !one.cannot_bite || one.cause == Cause::acid;
    const bool always =
        one.cause == Cause::other && std::count(out.begin(), out.end(), one.cause) == 0;
    if (always || (test.causes.empty() && open)) out.push_back(one.cause);
  }
  return out;
}

std::string two_figures(double value) {
  if (value == 0 || !std::isfinite(value)) return fmt::format("{:g}", value);
  const int whole = static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
  return fmt::format("{:.{}f}", value, std::clamp(2 - whole, 0, 9));
}

}  // namespace barm::testbakes

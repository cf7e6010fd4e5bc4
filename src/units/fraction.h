#pragma once
// Numbers without a dimension that must not be mistaken for one another: a share of mass is not a
// share of volume, and a pH is neither. Going from one to another is a named function elsewhere.
#include <compare>

namespace barm {

/// A dimensionless number of one kind. Not convertible to or from any other kind.
template <class Kind>
class Fraction {
 public:
  constexpr Fraction() = default;

  constexpr explicit Fraction(double value) : value_(value) {}

  static constexpr Fraction from_percent(double value) { return Fraction(value / 100.0); }

  [[nodiscard]] constexpr double value() const { return value_; }

  [[nodiscard]] constexpr double percent() const { return value_ * 100.0; }

  friend constexpr auto operator<=>(Fraction, Fraction) = default;

  friend constexpr Fraction operator+(Fraction a, Fraction b) {
    return Fraction(a.value_ + b.value_);
  }

  friend constexpr Fraction operator-(Fraction a, Fraction b) {
    return Fraction(a.value_ - b.value_);
  }

  friend constexpr Fraction operator*(double a, Fraction b) { return Fraction(a * b.value_); }

 private:
  double value_ = 0;
};

/// Mass of a part over mass of the whole [kg/kg].
using MassFraction = Fraction<struct MassFractionKind>;
/// Amount of a part over amount of the whole [mol/mol].
using MoleFraction = Fraction<struct MoleFractionKind>;
/// Volume of pure ethanol at 20 C over volume of the liquid at 20 C: alcoholic strength by volume,
/// "% vol".
using AlcoholByVolume = Fraction<struct AlcoholByVolumeKind>;
/// Mass over the total mass of flour, flour inside the levain included: baker's percent.
using BakersFraction = Fraction<struct BakersFractionKind>;
/// A chance between 0 and 1.
using Probability = Fraction<struct ProbabilityKind>;

/// Acidity as -log10 of the activity of H+.
class Ph {
 public:
  constexpr Ph() = default;

  constexpr explicit Ph(double value) : value_(value) {}

  [[nodiscard]] constexpr double value() const { return value_; }

  friend constexpr auto operator<=>(Ph, Ph) = default;

 private:
  double value_ = 7;
};

}  // namespace barm

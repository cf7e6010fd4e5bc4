#pragma once
// Physical quantities as types. The value is always in coherent SI; a number enters by multiplying
// with a unit (3.0 * gram) and leaves by naming one (mass.in(gram)).
#include <compare>

namespace barm {

/// Exponents of the base dimensions: kg, m, s, K, mol, and money in its own currency.
struct Dimension {
  int mass = 0, length = 0, time = 0, temperature = 0, amount = 0, money = 0;
  constexpr bool operator==(const Dimension&) const = default;
};

constexpr Dimension operator+(Dimension a, Dimension b) {
  return {a.mass + b.mass,
          a.length + b.length,
          a.time + b.time,
          a.temperature + b.temperature,
          a.amount + b.amount,
          a.money + b.money};
}

constexpr Dimension operator-(Dimension a, Dimension b) {
  return {a.mass - b.mass,
          a.length - b.length,
          a.time - b.time,
          a.temperature - b.temperature,
          a.amount - b.amount,
          a.money - b.money};
}

template <Dimension D>
class Quantity {
 public:
  constexpr Quantity() = default;

  constexpr Quantity(double value)
    requires(D == Dimension{})
      : value_(value) {}

  static constexpr Quantity from_si(double value) {
    Quantity quantity;
    quantity.value_ = value;
    return quantity;
  }

  [[nodiscard]] constexpr double si() const { return value_; }

  [[nodiscard]] constexpr double in(Quantity unit) const { return value_ / unit.value_; }

  constexpr operator double() const
    requires(D == Dimension{})
  {
    return value_;
  }

  constexpr Quantity& operator+=(Quantity other) {
    value_ += other.value_;
    return *this;
  }

  constexpr Quantity& operator-=(Quantity other) {
    value_ -= other.value_;
    return *this;
  }

  friend constexpr auto operator<=>(Quantity, Quantity) = default;

 private:
  double value_ = 0;
};

template <Dimension D>
constexpr Quantity<D> operator+(Quantity<D> a, Quantity<D> b) {
  return Quantity<D>::from_si(a.si() + b.si());
}

template <Dimension D>
constexpr Quantity<D> operator-(Quantity<D> a, Quantity<D> b) {
  return Quantity<D>::from_si(a.si() - b.si());
}

template <Dimension D>
constexpr Quantity<D> operator-(Quantity<D> a) {
  return Quantity<D>::from_si(-a.si());
}

template <Dimension A, Dimension B>
constexpr auto operator*(Quantity<A> a, Quantity<B> b) {
  return Quantity<A + B>::from_si(a.si() * b.si());
}

template <Dimension A, Dimension B>
constexpr auto operator/(Quantity<A> a, Quantity<B> b) {
  return Quantity<A - B>::from_si(a.si() / b.si());
}

template <Dimension D>
constexpr Quantity<D> operator*(double a, Quantity<D> b) {
  return Quantity<D>::from_si(a * b.si());
}

template <Dimension D>
constexpr Quantity<D> operator*(Quantity<D> a, double b) {
  return Quantity<D>::from_si(a.si() * b);
}

template <Dimension D>
constexpr Quantity<D> operator/(Quantity<D> a, double b) {
  return Quantity<D>::from_si(a.si() / b);
}

template <Dimension D>
constexpr auto operator/(double a, Quantity<D> b) {
  return Quantity<Dimension{} - D>::from_si(a / b.si());
}

using Scalar = Quantity<Dimension{}>;
using Mass = Quantity<Dimension{.mass = 1}>;
using Length = Quantity<Dimension{.length = 1}>;
using Time = Quantity<Dimension{.time = 1}>;
using TemperatureDifference = Quantity<Dimension{.temperature = 1}>;
using Amount = Quantity<Dimension{.amount = 1}>;
using Money = Quantity<Dimension{.money = 1}>;
using Area = Quantity<Dimension{.length = 2}>;
using Volume = Quantity<Dimension{.length = 3}>;
using Density = Quantity<Dimension{.mass = 1, .length = -3}>;
using SpecificVolume = Quantity<Dimension{.mass = -1, .length = 3}>;
using Rate = Quantity<Dimension{.time = -1}>;
using Pressure = Quantity<Dimension{.mass = 1, .length = -1, .time = -2}>;
using Energy = Quantity<Dimension{.mass = 1, .length = 2, .time = -2}>;
using MolarMass = Quantity<Dimension{.mass = 1, .amount = -1}>;
using MolarEnergy = Quantity<Dimension{.mass = 1, .length = 2, .time = -2, .amount = -1}>;
/// Amount per mass of whatever it is dissolved in or part of [mol/kg].
using Molality = Quantity<Dimension{.mass = -1, .amount = 1}>;
/// Amount per volume of solution [mol/m3].
using Molarity = Quantity<Dimension{.length = -3, .amount = 1}>;
/// Mass per volume of solution [kg/m3]; 1 g/L = 1 kg/m3.
using Concentration = Density;

}  // namespace barm

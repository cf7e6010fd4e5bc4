#pragma once
#include <compare>

#include "units/units.h"

namespace barm {

/// A point on the temperature scale. Points subtract to a difference; two points do not add.
class Temperature {
 public:
  constexpr Temperature() = default;

  static constexpr Temperature from_kelvin(double value) { return Temperature(value); }

  static constexpr Temperature from_celsius(double value) { return Temperature(value + 273.15); }

  static constexpr Temperature from_fahrenheit(double value) {
    return from_celsius((value - 32.0) / 1.8);
  }

  [[nodiscard]] constexpr double kelvin() const { return kelvin_; }

  [[nodiscard]] constexpr double celsius() const { return kelvin_ - 273.15; }

  [[nodiscard]] constexpr double fahrenheit() const { return celsius() * 1.8 + 32.0; }

  friend constexpr auto operator<=>(Temperature, Temperature) = default;

  friend constexpr TemperatureDifference operator-(Temperature a, Temperature b) {
    return TemperatureDifference::from_si(a.kelvin_ - b.kelvin_);
  }

  friend constexpr Temperature operator+(Temperature a, TemperatureDifference b) {
    return Temperature(a.kelvin_ + b.si());
  }

  friend constexpr Temperature operator-(Temperature a, TemperatureDifference b) {
    return Temperature(a.kelvin_ - b.si());
  }

 private:
  constexpr explicit Temperature(double kelvin_value) : kelvin_(kelvin_value) {}

  double kelvin_ = 293.15;
};

}  // namespace barm

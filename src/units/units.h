#pragma once
#include "units/quantity.h"

namespace barm {

inline constexpr Mass kilogram = Mass::from_si(1);
inline constexpr Mass gram = Mass::from_si(1e-3);
inline constexpr Mass milligram = Mass::from_si(1e-6);
inline constexpr Mass pound = Mass::from_si(0.45359237);
inline constexpr Mass ounce = Mass::from_si(0.028349523125);
inline constexpr Length metre = Length::from_si(1);
inline constexpr Length inch = Length::from_si(0.0254);
inline constexpr Length millimetre = Length::from_si(1e-3);
inline constexpr Volume cubic_metre = Volume::from_si(1);
inline constexpr Volume litre = Volume::from_si(1e-3);
inline constexpr Volume centilitre = Volume::from_si(1e-5);
inline constexpr Volume millilitre = Volume::from_si(1e-6);
inline constexpr Time second = Time::from_si(1);
inline constexpr Time minute = Time::from_si(60);
inline constexpr Time hour = Time::from_si(3600);
inline constexpr Time day = Time::from_si(86400);
inline constexpr TemperatureDifference kelvin = TemperatureDifference::from_si(1);
inline constexpr Amount mole = Amount::from_si(1);
inline constexpr Amount millimole = Amount::from_si(1e-3);
inline constexpr Amount micromole = Amount::from_si(1e-6);
inline constexpr Pressure pascal = Pressure::from_si(1);
inline constexpr Pressure atmosphere = Pressure::from_si(101325);
inline constexpr Energy joule = Energy::from_si(1);
inline constexpr auto watt = joule / second;
inline constexpr Money currency_unit = Money::from_si(1);
inline constexpr Scalar one = 1.0;
inline constexpr Scalar percent = 0.01;

}  // namespace barm

#pragma once
#include "units/units.h"

namespace barm::test {

constexpr Molality molal(double value) { return value * (mole / kilogram); }

}  // namespace barm::test

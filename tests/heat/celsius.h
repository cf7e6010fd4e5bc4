#pragma once
#include "units/temperature.h"

namespace barm::heat::test {

inline Temperature celsius(double value) { return Temperature::from_celsius(value); }

}  // namespace barm::heat::test

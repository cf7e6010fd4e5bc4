#pragma once
#include <gmock/gmock.h>

#include <cmath>

#include "base/result.h"

namespace barm::test {

/// Digits to which `actual` agrees with the certified value: NIST's log relative error.
inline double digits(double actual, double certified) {
  if (actual == certified) return 15;
  const double error =
      certified == 0 ? std::abs(actual) : std::abs((actual - certified) / certified);
  return -std::log10(error);
}

MATCHER_P2(AgreesTo, wanted, certified, "agrees with the certified value to so many digits") {
  *result_listener << "agrees to " << digits(arg, certified) << " digits";
  return digits(arg, certified) >= wanted;
}

MATCHER_P(FailsWith, code, "fails with the given code") {
  if (arg.has_value()) {
    *result_listener << "it holds a value";
    return false;
  }
  *result_listener << arg.error().text();
  return arg.error().code == code;
}

MATCHER(Holds, "holds a value") {
  if (!arg.has_value()) *result_listener << arg.error().text();
  return arg.has_value();
}

}  // namespace barm::test

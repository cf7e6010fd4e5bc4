#pragma once
#include <cstdlib>
#include <ctime>

namespace barm::test {

/// As long as it lives the machine stands where clocks go forward on the last Sunday of March and
/// back on that of October, both at 01:00 UTC: the rules of the European Union since 1996
/// (Directive 2000/84/EC). One hour east of UTC in winter.
class InCentralEurope {
 public:
  InCentralEurope() {
    setenv("TZ", "CET-1CEST,M3.5.0,M10.5.0/3", 1);
    tzset();
  }

  ~InCentralEurope() {
    unsetenv("TZ");
    tzset();
  }

  InCentralEurope(const InCentralEurope&) = delete;
  InCentralEurope& operator=(const InCentralEurope&) = delete;
};

}  // namespace barm::test

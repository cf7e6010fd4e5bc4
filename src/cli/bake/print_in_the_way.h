#pragma once
// WHAT SLOWS IT: the hours each thing costs a dough, foretold or read.
#include "cli/paper.h"
#include "forecast/in_the_way.h"
#include "formula/bowl.h"
#include "time/wall_clock.h"

namespace barm::cli {

/// The dough that is slowed, for what is said beside each cost.
struct DoughInIt {
  const formula::Bowl& bowl;
  Temperature temperature;
};

void print_in_the_way(Paper& paper,
                      const forecast::InTheWay& way,
                      const DoughInIt& dough,
                      const time::WallClock& clock);

}  // namespace barm::cli

#pragma once
#include "estimation/readings.h"

namespace barm::estimation::internal {

/// More rows than a hand would write are summed up: stretches of equal length, of each the middle
/// height and the mean of everything else, with the number of rows behind them.
void thin(Readings& readings);

}  // namespace barm::estimation::internal

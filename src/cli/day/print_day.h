#pragma once

#include "cli/paper.h"
#include "service/day/kept_day.h"

namespace barm::cli {

/// One list by the clock, what is tight, the chance, cautions; or why there is no plan.
void print(Paper& paper, const service::DayAnswer& answer);

/// What moved, and the plan as it is now.
void print(Paper& paper, const service::DayAgain& again);

}  // namespace barm::cli

#pragma once
#include <functional>

#include "cli/paper.h"
#include "service/day/kept_day.h"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

/// `barm day`: sets `chosen` to what is to be run when it was given.
void add_day(CLI::App& app, std::function<int()>& chosen);

/// One list by the clock, what is tight, the chance, cautions; or why there is no plan.
void print(Paper& paper, const service::DayAnswer& answer);

/// What moved, and the plan as it is now.
void print(Paper& paper, const service::DayAgain& again);

}  // namespace barm::cli

#pragma once
// The stages of a bake on paper, the oven and the rack among them: of a dough foreseen, or read.
#include <optional>
#include <string>

#include "cli/paper.h"
#include "forecast/timeline.h"
#include "formula/bake.h"
#include "service/oven/oven.h"
#include "time/wall_clock.h"

namespace barm::cli {

struct StagesTold {
  const forecast::Timeline& timeline;
  const formula::Bake& bake;
  const std::optional<service::OvenAnswer>& oven;
  std::string whose;  ///< "doughs like this one"
};

/// Of the same draws as READY, when there are more stages than the bulk.
void print_stages(Paper& paper, const StagesTold& told, const time::WallClock& clock);

}  // namespace barm::cli

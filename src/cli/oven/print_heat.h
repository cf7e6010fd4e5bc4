#pragma once
#include "cli/paper.h"
#include "service/bake/mix.h"
#include "service/oven/simmer.h"

namespace barm::cli {

void print(Paper& paper, const service::SimmerAnswer& answer);
void print(Paper& paper, const service::MixAnswer& answer);

}  // namespace barm::cli

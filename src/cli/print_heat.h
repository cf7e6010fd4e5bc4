#pragma once
#include "cli/paper.h"
#include "service/mix.h"
#include "service/simmer.h"

namespace barm::cli {

void print(Paper& paper, const service::SimmerAnswer& answer);
void print(Paper& paper, const service::MixAnswer& answer);

}  // namespace barm::cli

#pragma once
#include "cli/paper.h"
#include "service/house/fridge.h"
#include "service/oven/oven.h"

namespace barm::cli {

void print(Paper& paper, const service::OvenAnswer& answer);
void print(Paper& paper, const service::FridgeAnswer& answer);

}  // namespace barm::cli

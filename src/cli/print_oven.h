#pragma once
#include "cli/paper.h"
#include "service/fridge.h"
#include "service/oven.h"

namespace barm::cli {

void print(Paper& paper, const service::OvenAnswer& answer);
void print(Paper& paper, const service::FridgeAnswer& answer);

}  // namespace barm::cli

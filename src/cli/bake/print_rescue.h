#pragma once

#include "cli/paper.h"
#include "service/bake/rescue.h"

namespace barm::cli {

void print(Paper& paper, const service::RescueAnswer& answer);

}  // namespace barm::cli

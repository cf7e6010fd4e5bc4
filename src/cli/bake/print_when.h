#pragma once
#include "cli/paper.h"
#include "service/bake/when.h"

namespace barm::cli {

void print(Paper& paper, const service::WhenAnswer& answer);

}  // namespace barm::cli

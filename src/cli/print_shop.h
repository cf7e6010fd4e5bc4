#pragma once
#include "cli/paper.h"
#include "service/till.h"

namespace barm::cli {

void print(Paper& paper, const service::TillAnswer& answer);

}  // namespace barm::cli

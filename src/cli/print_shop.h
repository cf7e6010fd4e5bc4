#pragma once
#include "cli/paper.h"
#include "service/label.h"
#include "service/till.h"

namespace barm::cli {

void print(Paper& paper, const service::TillAnswer& answer);
void print(Paper& paper, const service::LabelAnswer& answer);

}  // namespace barm::cli

#pragma once
#include "cli/paper.h"
#include "service/shop/label.h"
#include "service/shop/till.h"

namespace barm::cli {

void print(Paper& paper, const service::TillAnswer& answer);
void print(Paper& paper, const service::LabelAnswer& answer);

}  // namespace barm::cli

#pragma once

#include "cli/paper.h"
#include "service/taste/taste.h"

namespace barm::cli {

void print(Paper& paper, const service::ThroughAnswer& answer);
void print(Paper& paper, const service::MoreTasteAnswer& answer);
void print(Paper& paper, const service::TasteAcrossAnswer& answer);

}  // namespace barm::cli

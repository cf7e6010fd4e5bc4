#pragma once
#include "cli/paper.h"
#include "service/bake/read.h"
#include "service/daybook/culture.h"
#include "service/daybook/kept_culture.h"

namespace barm::cli {

void print(Paper& paper, const service::ReadAnswer& answer);
void print(Paper& paper, const service::CultureAnswer& answer);
void print(Paper& paper, const service::KeptCulture& kept);

}  // namespace barm::cli

#pragma once
#include "cli/paper.h"
#include "service/culture.h"
#include "service/kept_culture.h"
#include "service/read.h"

namespace barm::cli {

void print(Paper& paper, const service::ReadAnswer& answer);
void print(Paper& paper, const service::CultureAnswer& answer);
void print(Paper& paper, const service::KeptCulture& kept);

}  // namespace barm::cli

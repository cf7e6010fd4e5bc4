#pragma once
#include "cli/paper.h"
#include "service/bake/jar.h"

namespace barm::cli {

void print(Paper& paper, const service::JarAnswer& answer);

/// How far the bulk may go, and what the trade does.
void print_ready_for(Paper& paper, const forecast::ReadyFor& ready_for);

}  // namespace barm::cli

#pragma once
#include <functional>

#include "cli/paper.h"
#include "service/bake/rescue.h"

namespace CLI {  // NOLINT(readability-identifier-naming): theirs
class App;
}

namespace barm::cli {

/// `barm rescue`: sets `chosen` to what is to be run when it was given.
void add_rescue(CLI::App& app, std::function<int()>& chosen);

void print(Paper& paper, const service::RescueAnswer& answer);

}  // namespace barm::cli

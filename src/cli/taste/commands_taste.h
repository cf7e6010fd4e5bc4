#pragma once
#include <functional>

#include "cli/paper.h"
#include "service/taste/taste.h"

namespace CLI {  // NOLINT(readability-identifier-naming): theirs
class App;
}

namespace barm::cli {

/// `barm taste`: sets `chosen` to what is to be run when it was given.
void add_taste(CLI::App& app, std::function<int()>& chosen);

void print(Paper& paper, const service::ThroughAnswer& answer);
void print(Paper& paper, const service::MoreTasteAnswer& answer);
void print(Paper& paper, const service::TasteAcrossAnswer& answer);

}  // namespace barm::cli

#pragma once
#include "formula/document.h"

namespace barm::formula::internal {

/// Where and in what the dough of a stage stands.
[[nodiscard]] Surroundings read_surroundings(const Node& stage);

/// The [jar] table.
[[nodiscard]] Jar read_jar(const Entry& entry);

}  // namespace barm::formula::internal

#pragma once
#include <optional>
#include <string>

#include "forecast/options.h"
#include "formula/bake.h"

namespace barm::cli {

/// What --target says: a ratio, or "after" for what comes after the bulk; sets the bake's and the
/// options' target. The error, if it is neither.
[[nodiscard]] std::optional<Error> aim_at(const std::string& target,
                                          formula::Bake& bake,
                                          forecast::Options& options);

}  // namespace barm::cli

#pragma once
#include <functional>
#include <optional>
#include <string>

#include "forecast/ensemble.h"

namespace CLI {  // NOLINT(readability-identifier-naming): the library's own
class App;
}

namespace barm::cli {

/// `barm jar`: sets `chosen` to what is to be run when it was given.
void add_jar(CLI::App& app, std::function<int()>& chosen);

/// What --target says: a ratio, or "after" for what comes after the bulk; sets the bake's and the
/// options' target. The error, if it is neither.
[[nodiscard]] std::optional<Error> aim_at(const std::string& target,
                                          formula::Bake& bake,
                                          forecast::Options& options);

}  // namespace barm::cli

#pragma once
// How far the bulk is to go: as the baker says, or by what comes after it.
#include <nlohmann/json_fwd.hpp>
#include <optional>

#include "forecast/ready_for.h"

namespace barm::service {

/// What comes after the bulk and how far it may therefore go; empty when nothing comes after. Where
/// the bake's target follows from that, the bulk of the bake is set to end at the middle of what it
/// allows, and so are the options; any other bake stays as it is. Errors: those of
/// forecast::ready_for().
[[nodiscard]] Result<std::optional<forecast::ReadyFor>> aim(formula::Bake& bake,
                                                            forecast::Options& options,
                                                            forecast::Made& made);

/// The part of an answer that says it.
[[nodiscard]] nlohmann::json to_json(const forecast::ReadyFor& ready_for);

}  // namespace barm::service

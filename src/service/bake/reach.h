#pragma once
// How far a drink can go.
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "base/result.h"
#include "forecast/options.h"
#include "forecast/reach.h"
#include "formula/bake.h"

namespace barm::service {

struct ReachAnswer {
  formula::Bake bake;
  forecast::Reach reach;
  Probability wanted;
  int draws = 0;
};

/// An empty drink: the one that brings most alcohol.
[[nodiscard]] Result<ReachAnswer> reach(const formula::Bake& bake,
                                        const std::string& drink,
                                        Time within,
                                        Probability chance,
                                        const forecast::Options& options);
[[nodiscard]] Result<ReachAnswer> reach(const std::string& path,
                                        const std::string& drink,
                                        Time within,
                                        Probability chance,
                                        const forecast::Options& options);

/// `barm.reach/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const ReachAnswer& answer);

}  // namespace barm::service

#pragma once
// The drinks of a bake that are prepared before they go in: what each takes.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "formula/bake.h"
#include "formula/bowl.h"

namespace barm::service {

struct ToPrepare {
  std::string drink;
  Mass makes;

  struct From {
    std::string name;
    Mass mass;
  };

  std::vector<From> from;
  std::string how;  ///< "raisins steeped in it and strained off"
};

[[nodiscard]] std::vector<ToPrepare> to_prepare(const formula::Bake& bake,
                                                const formula::Bowl& bowl);

/// "300 g of my stout: from 319 g of stout and 16 g of raisins; raisins steeped in it and …"
[[nodiscard]] std::string words(const ToPrepare& one);

/// The member `to_prepare` of a bowl.
[[nodiscard]] nlohmann::json to_json(const std::vector<ToPrepare>& all);

}  // namespace barm::service

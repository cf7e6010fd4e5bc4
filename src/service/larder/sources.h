#pragma once
// Where a number comes from and how far it can be trusted.
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/result.h"
#include "data/source.h"
#include "forecast/options.h"
#include "formula/bake.h"

namespace barm::service {

/// Values and their sources, of data/ and of the larder. Errors: not_found.
[[nodiscard]] Result<std::vector<data::Entry>> sources_of(const std::string& words);

/// The numbers in doubt that the time to ready of a bake rests on, most first: each with the share
/// of the doubt that is its own (forecast::rests_on).
struct RestingAnswer {
  struct Number {
    data::Entry entry;
    double share = 0;
  };

  formula::Bake bake;
  std::vector<Number> numbers;
  int draws = 0;
};

[[nodiscard]] Result<RestingAnswer> sources_behind(const std::string& path,
                                                   const forecast::Options& options);

/// `barm.source/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const std::vector<data::Entry>& entries);
[[nodiscard]] nlohmann::json to_json(const RestingAnswer& answer);

}  // namespace barm::service

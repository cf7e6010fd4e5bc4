#pragma once
// What follows from a day's plan: what to feed and when, what to weigh for each dough, what all of
// it takes and what of that is short.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "service/day/file.h"
#include "storage/records.h"

namespace barm::service {

struct BakePlan;

struct DayLine {
  std::string ingredient;
  Mass mass;
  std::optional<Volume> volume;  ///< of a drink
};

/// A levain to be fed.
struct DayFeeding {
  std::string bake, words;
  time::Instant at;
};

/// A dough to be weighed out.
struct DayWeighing {
  std::string bake;
  int loaves = 1;
  time::Instant at;  ///< of mixing
  std::vector<DayLine> lines;
};

struct DayLists {
  std::vector<DayFeeding> feedings;    ///< by the clock
  std::vector<DayWeighing> weighings;  ///< by the clock
  std::vector<DayLine> needs;  ///< of all doughs that are not mixed, their levains' flour in
  std::optional<std::vector<std::string>> buy;  ///< what of it is short; empty: no shelf is known
};

/// Of what has not begun, by the ways the plan goes. A bake whose bowl cannot be weighed is left
/// out: it could not have been planned.
[[nodiscard]] DayLists day_lists(const DayFile& file,
                                 const std::vector<BakePlan>& plan,
                                 const std::optional<std::vector<storage::Bottle>>& shelf);

[[nodiscard]] nlohmann::json to_json(const DayLists& lists);

}  // namespace barm::service

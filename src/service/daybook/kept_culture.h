#pragma once
// A culture of the daybook and what its bakes have taught. Each bake that was read is learned from
// by itself, from a typical starter, when it is first asked for; its lesson is kept with what it
// was learned from and learned anew when that has changed. So a bake that is left out has never
// been. docs/daybook.md.
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "service/bake/begun.h"
#include "service/daybook/culture.h"
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// How the bakes of a culture are asked.
struct Asking {
  std::string but = {};  ///< a bake that plays no part: the one that is to be foreseen
  bool anew = false;     ///< also those whose lesson is kept
  int threads = 0;       ///< 0: as many as the machine has
  std::function<bool()> cancelled = nullptr;
  std::function<void(double)> progress = nullptr;  ///< told the share done
};

/// A bake of the culture that was read at least twice.
struct KeptBatch {
  std::string bake, title;
  time::Instant mixed_at;
  int readings = 0;  ///< heights
  bool left_out = false;
  std::optional<double> levain_past_peak_h;
  std::vector<std::string> taught;  ///< in words; empty when it did as a typical starter does
  std::string trouble;              ///< why nothing can be learned from it; empty when it can
};

struct KeptCulture {
  storage::Culture record;
  estimation::Culture culture;     ///< the lessons of those that are not left out
  std::vector<KeptBatch> batches;  ///< newest first
};

/// Mixed bakes of the culture with two heights or more, whatever became of them, and the batches of
/// its `memory`. Errors: cancelled, bad_input for a memory that is none, and those of the daybook.
/// A lesson that cannot be kept (a daybook that may only be read) is learned all the same.
[[nodiscard]] Result<KeptCulture> kept_culture(storage::Daybook& daybook,
                                               const storage::Culture& culture,
                                               const Now& now,
                                               const Asking& asking = {});

/// The batches of its memory that no bake of the daybook holds.
[[nodiscard]] std::vector<estimation::BatchLesson> from_elsewhere(const KeptCulture& kept);

/// By its id, or by words that only one title holds. Errors: not_found; bad_input when several do.
[[nodiscard]] Result<storage::Culture> find_culture(storage::Daybook& daybook,
                                                    const std::string& words);

/// The culture saved so that it does not learn from a bake, or learns from it again. Errors:
/// not_found for a bake that is none of this culture.
[[nodiscard]] Result<storage::Culture> leave_out(storage::Daybook& daybook,
                                                 storage::Culture culture,
                                                 const storage::Bake& bake,
                                                 bool out,
                                                 const Now& now);

/// What the forecast of a bake of the daybook starts from, by the culture it names; day one without
/// one. Errors: as kept_culture().
[[nodiscard]] Result<Begun> begun_for(storage::Daybook& daybook,
                                      const storage::Bake& record,
                                      const formula::Bake& bake,
                                      const Now& now,
                                      Asking asking = {});

/// `barm.culture_memory/1`, docs/json.md.
[[nodiscard]] nlohmann::json to_json(const KeptCulture& culture);

}  // namespace barm::service

#pragma once
// A bake of the daybook with all that a calculation of it rests on, and its readings as the
// estimation takes them.
#include <string>
#include <vector>

#include "estimation/readings.h"
#include "service/bake/batch.h"
#include "service/house/equipment.h"
#include "service/now.h"
#include "storage/daybook.h"

namespace barm::service {

/// The table that says the same (docs/readings.md), in hours since mixing.
[[nodiscard]] std::string readings_table(const std::vector<storage::ReadingRecord>& readings,
                                         time::Instant mixed);

/// Each as the estimation takes it; what says nothing but words is no reading here.
[[nodiscard]] std::vector<estimation::Reading> rows_of(
    const std::vector<storage::ReadingRecord>& readings, time::Instant mixed);

/// Those that can be read; what cannot be, such as a look before mixing, is in `left_out`.
[[nodiscard]] estimation::Readings readings_of(const std::vector<storage::ReadingRecord>& readings,
                                               time::Instant mixed);

struct KeptBake {
  storage::Bake record;
  std::vector<storage::Mark> marks;
  std::vector<storage::ReadingRecord> readings;
  Inventory house;  ///< whose oven it goes into
};

/// Which stages its marks say are done, and when; nothing of a bake that is not mixed.
[[nodiscard]] std::vector<forecast::Done> done_of(const KeptBake& bake);

/// How long ago it was mixed, while it stands.
[[nodiscard]] std::optional<Time> age_of(const storage::Bake& bake, const Now& now);

/// What is known of the dough: `bake` is its file with what its marks say, `start` what its culture
/// has taught. Of one that nobody works at nothing is ticked off.
[[nodiscard]] Batch batch_of(const KeptBake& kept, formula::Bake bake, Begun start, const Now& now);

[[nodiscard]] Result<KeptBake> kept_bake(storage::Daybook& daybook, storage::Bake record);

/// All of it, and of the published figures, in a text: while it stays as it is, so does what is
/// worked out from it.
[[nodiscard]] std::string made_from(const KeptBake& bake);

/// The same with its state and the house's ovens: all that its stages are worked out from but the
/// belief it begins with.
[[nodiscard]] std::string stages_made_from(const KeptBake& bake);

}  // namespace barm::service

#include "service/day/under_way.h"

#include <fmt/format.h>

#include "service/daybook/daybook.h"
#include "service/daybook/kept_bake.h"
#include "service/daybook/kept_culture.h"
#include "service/daybook/view.h"

namespace barm::service {

Result<KnownBake> known_bake(storage::Daybook& daybook, const std::string& words, const Now& now) {
  auto record = find_bake(daybook, words);
  if (!record) return failure(record);
  if (record->deleted_at)
    return failure(ErrorCode::not_found, words, record->title + " is in the trash");
  auto kept = kept_bake(daybook, std::move(*record));
  if (!kept) return failure(kept);
  auto bake = stored_bake(kept->record, kept->marks, kept->house, now);
  if (!bake) return failure(bake);
  auto begun = begun_for(daybook, kept->record, *bake, now);
  if (!begun) return failure(begun);
  KnownBake out{std::move(*bake)};
  out.made_from = stages_made_from(*kept);
  for (const auto* numbers : {&begun->belief.mean, &begun->belief.covariance}) {
    for (const double number : *numbers) out.made_from += fmt::format(" {}", number);
  }
  out.belief = std::move(begun->belief);
  if (kept->record.state == "live" && kept->record.mixed_at) {
    out.mixed = *kept->record.mixed_at;
    out.ticked = done_of(*kept);
    out.readings = readings_of(kept->readings, *kept->record.mixed_at);
  }
  return out;
}

}  // namespace barm::service

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
  KnownBake out{batch_of(*kept, *std::move(bake), *std::move(begun), now), stages_made_from(*kept)};
  for (const auto* numbers : {&out.start.belief.mean, &out.start.belief.covariance}) {
    for (const double number : *numbers) out.made_from += fmt::format(" {}", number);
  }
  return out;
}

}  // namespace barm::service

#include "server/questions/known_cultures.h"

namespace barm::server {

namespace {

constexpr std::size_t most_kept = 64;  // of so many bakes one asks in turn

}  // namespace

Result<KnownCultures::SharedCulture> KnownCultures::of(storage::Daybook& daybook,
                                                       const std::string& culture,
                                                       const service::Now& now,
                                                       const service::Asking& asking) {
  // Before anything is read: what is saved meanwhile makes it old at once.
  const auto change = daybook.last_change();
  if (!change) return failure(change);
  const std::string key = culture + '\n' + asking.but;
  {
    const std::scoped_lock lock(mutex_);
    const auto found = kept_.find(key);
    if (found != kept_.end() && found->second.change == *change) return found->second.culture;
  }
  const auto record = daybook.get<storage::Culture>(culture);
  if (!record) return failure(record);
  auto kept = service::kept_culture(daybook, *record, now, asking);
  if (!kept) return failure(kept);
  auto known = std::make_shared<const estimation::Culture>(std::move(kept->culture));
  const std::scoped_lock lock(mutex_);
  if (kept_.size() >= most_kept) kept_.clear();
  kept_[key] = {*change, known};
  return known;
}

}  // namespace barm::server

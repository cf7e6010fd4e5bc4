#include "server/questions/laid_days.h"

#include <algorithm>
#include <utility>

namespace barm::server {

LaidDays::Laid LaidDays::found(const std::string& text) {
  const std::scoped_lock lock(mutex_);
  const auto one = std::find_if(
      kept_.begin(), kept_.end(), [&](const auto& kept) { return kept.first == text; });
  if (one == kept_.end()) return nullptr;
  kept_.splice(kept_.begin(), kept_, one);
  return kept_.front().second;
}

LaidDays::Laid LaidDays::of(const std::string& text, const std::function<service::LaidDay()>& lay) {
  if (Laid kept = found(text)) return kept;
  auto laid = std::make_shared<const service::LaidDay>(lay());
  also(text, laid);
  return laid;
}

void LaidDays::also(const std::string& text, Laid laid) {
  if (found(text)) return;
  const std::scoped_lock lock(mutex_);
  kept_.emplace_front(text, std::move(laid));
  if (kept_.size() > most) kept_.pop_back();
}

}  // namespace barm::server

#pragma once
// Days that are laid (service/day/laid_day.h), so that moving a step does not draw and plan them
// again.
#include <functional>
#include <list>
#include <memory>
#include <mutex>
#include <string>

#include "service/day/laid_day.h"

namespace barm::server {

/// The last few by what they were made from. May be called from any thread; what two ask for at
/// once is laid twice.
class LaidDays {
 public:
  using Laid = std::shared_ptr<const service::LaidDay>;

  /// The one made from `text`, laid now where it is not kept. What `lay` throws is kept for nobody.
  [[nodiscard]] Laid of(const std::string& text, const std::function<service::LaidDay()>& lay);

  /// Gives a day that was laid another text as well.
  void also(const std::string& text, Laid laid);

  static constexpr std::size_t most = 8;  ///< of texts; a day has two, and some megabytes

 private:
  [[nodiscard]] Laid found(const std::string& text);

  std::mutex mutex_;
  std::list<std::pair<std::string, Laid>> kept_;  ///< asked for last first
};

}  // namespace barm::server

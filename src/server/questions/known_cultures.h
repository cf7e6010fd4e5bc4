#pragma once
// What the cultures of a daybook have taught, asked of all their bakes once and kept until the
// daybook is another one: a key pressed in a recipe asks none of them.
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "estimation/culture.h"
#include "service/daybook/kept_culture.h"

namespace barm::server {

/// May be called from any thread.
class KnownCultures {
 public:
  using SharedCulture = std::shared_ptr<const estimation::Culture>;

  /// Errors: those of service::kept_culture().
  [[nodiscard]] Result<SharedCulture> of(storage::Daybook& daybook,
                                         const std::string& culture,
                                         const service::Now& now,
                                         const service::Asking& asking);

 private:
  struct Kept {
    std::int64_t change = -1;  ///< the daybook's last one when it was asked
    SharedCulture culture;
  };

  std::mutex mutex_;
  std::map<std::string, Kept> kept_;
};

}  // namespace barm::server

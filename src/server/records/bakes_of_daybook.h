#pragma once
// The bakes and cultures of an open daybook, as questions ask for them.
#include <functional>
#include <string>
#include <utility>

#include "server/questions/asked_bake.h"
#include "server/questions/known_cultures.h"
#include "storage/pool.h"

namespace barm::server {

/// Must outlive what it gives. May be asked from any thread.
class BakesOfDaybook {
 public:
  /// `open` throws Refused where no daybook is open; `there`: whether one is.
  BakesOfDaybook(std::function<storage::Pool::Lease()> open, bool there)
      : open_(std::move(open)), there_(there) {}

  [[nodiscard]] StoredBakes of(const service::Now& now);

 private:
  [[nodiscard]] service::Begun begun(const Starting& starting,
                                     const Watch& watch,
                                     const service::Now& now);
  [[nodiscard]] std::string setting(const std::string& id) const;

  std::function<storage::Pool::Lease()> open_;
  bool there_;
  KnownCultures cultures_;
};

}  // namespace barm::server

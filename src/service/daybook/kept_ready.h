#pragma once
// When a bake of the daybook is ready: by its readings and its culture, where it has some. Worked
// out once and kept for as long as they stay as they are.
#include <functional>
#include <optional>
#include <string>

#include "forecast/timeline.h"
#include "formula/bake.h"
#include "service/daybook/kept_bake.h"
#include "service/now.h"

namespace barm::service {

struct KeptReady {
  forecast::Timeline timeline;  ///< after mixing: its stages by their place alone, and what to do
  std::string rests_on;  ///< "4 readings and what Sluice has taught"; empty: on its file alone
};

/// What comes of the dough of that id by what was read of it, where somebody has worked that out or
/// keeps it for others; nothing: it is worked out here.
using AsRead = std::function<std::optional<forecast::Timeline>(const std::string& bake_id)>;

/// `record` with its file read as `bake`. A dough is read only while it is live. Errors: those of
/// foresee() and of the daybook.
[[nodiscard]] Result<KeptReady> kept_ready(storage::Daybook& daybook,
                                           const KeptBake& kept,
                                           const formula::Bake& bake,
                                           const Now& now,
                                           const AsRead& as_read = nullptr);

}  // namespace barm::service

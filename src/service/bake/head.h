#pragma once
// The head of a bake: the next thing to do and the bread. And the whole timeline, said.
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "forecast/timeline.h"
#include "formula/bake.h"
#include "time/wall_clock.h"

namespace barm::service {

struct Head {
  std::optional<forecast::ToDo> next;  ///< empty when all is done
  forecast::Spread oven;
  std::string next_words;              ///< "divide into 6 about 17:00 (16:00 to 18:15)", or
                                       ///< "divide into 6: overdue since 18:15"; "fold now",
                                       ///< which may be missed
  std::optional<forecast::ToDo> then;  ///< the oven, or what follows it; empty when nothing does
  std::string then_words;  ///< "into the oven Sun 08:30 (…)"; "… about 4 h after that" of what is
                           ///< overdue
  std::string words;       ///< both
  bool late = false;  ///< nine of ten doughs like it would have come to the next step by now, or
                      ///< fewer than half ever will
};

/// `now`: after mixing; empty: it is not mixed yet.
[[nodiscard]] Head head_of(const forecast::Timeline& timeline,
                           const formula::Bake& bake,
                           const time::WallClock& clock,
                           std::optional<Time> now);

/// "divide into 6", "into the cold, 4 °C".
[[nodiscard]] std::string what_to_do(const forecast::ToDo& to_do,
                                     const forecast::Timeline& timeline,
                                     const formula::Bake& bake);

/// "about 17:00 (16:00 to 18:15)"; without a range where it is known to the quarter of an hour.
[[nodiscard]] std::string about_when(const forecast::Spread& spread,
                                     const time::WallClock& clock,
                                     Time horizon);

[[nodiscard]] std::string_view name(forecast::Act act);

/// The members `head`, `stages`, `to_do`, `out_of_the_cold` and `bread` of an answer.
void add_timeline(nlohmann::json& out,
                  const forecast::Timeline& timeline,
                  const formula::Bake& bake,
                  const time::WallClock& clock,
                  std::optional<Time> now);

/// What is kept of a timeline, and back; nothing for what this program did not write.
[[nodiscard]] std::string kept_text(const forecast::Timeline& timeline);
[[nodiscard]] std::optional<forecast::Timeline> kept_timeline(const std::string& text);

}  // namespace barm::service

#pragma once
// What a baker at the oven reads, in a few words: the same on paper, in the calendar, on a screen.
#include <string>

#include "service/oven/oven.h"

namespace barm::service {

/// "250 °C, from 15 min on 220 °C, steam for 10 min, on a hot stone, 2 loaves at once".
[[nodiscard]] std::string how_to_load(const OvenAnswer& answer);

/// "45 min"; "about 39 min (31 to 48 min)" where nobody said how long.
[[nodiscard]] std::string how_long(const OvenAnswer& answer);

/// "core 97 °C (90 to 99 °C), 15 % lighter (13 to 17 %)": as it comes out, 4 of 5 loaves.
[[nodiscard]] std::string as_it_comes_out(const OvenAnswer& answer);

/// "able to rise by 22 % more (10 to 35 %)", 4 of 5 doughs; with what helps one that is too young
/// or too ripe.
[[nodiscard]] std::string how_ripe(Ripeness ripeness, const oven::Range& room);

/// "2 loaves, 50 min longer in its last place: able to rise by 22 % more (10 to 35 %), springs by
/// 14 % (8 to 21 %)", of a load behind the first, the second is 2; empty for any other.
[[nodiscard]] std::string as_it_goes_in(const OvenAnswer& answer, int load);

/// One sentence where the vapour may come to a quarter of what burns; else empty.
[[nodiscard]] std::string vapour_in_short(const OvenAnswer& answer);

/// "core within 0.4 °C of the probe, weight within 0.2 % of the scale", of what there was of both.
[[nodiscard]] std::string how_near(const oven::Learned& learned);

/// That what was measured fits no oven well, what follows and what would help; empty where it does.
[[nodiscard]] std::string poor_fit(const oven::Learned& learned);

}  // namespace barm::service

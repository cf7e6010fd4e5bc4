#pragma once
// How the program says a number: as a baker would. One voice for the terminal, the page and print.
#include <optional>
#include <string>

#include "time/span.h"
#include "units/fraction.h"
#include "units/temperature.h"
#include "units/units.h"

namespace barm::service {

using time::span;

/// "3060", "61", "4.5", "0.25": grams, to what a scale shows.
[[nodiscard]] std::string grams(Mass mass);

/// "1132 g", "4.5 g"; from 10 kg on "12.4 kg".
[[nodiscard]] std::string weight(Mass mass);

/// "712 mL", "1.2 L".
[[nodiscard]] std::string volume(Volume volume);

/// "24 °C", "24.5 °C": to half a degree.
[[nodiscard]] std::string warmth(Temperature temperature);

/// "71 %", "2.1 %": two figures.
[[nodiscard]] std::string share(double fraction);

/// "under 1 in 100", "1 in 50", "4 in 5", "over 99 in 100": a chance in words. `draws` is how many
/// doughs it was counted from, so that none of 60 is "under 1 in 60".
[[nodiscard]] std::string odds(Probability chance, int draws);

/// "doubled", "tripled", "risen by half", "1.8 times".
[[nodiscard]] std::string risen(double ratio);

}  // namespace barm::service

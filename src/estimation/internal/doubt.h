#pragma once

// When a doubt counts as no smaller than before, and how wide "4 of 5" is.

namespace barm::estimation::internal {

inline constexpr double nothing_yet = 0.93;     // share of a doubt that is left
inline constexpr double four_of_five = 1.2816;  // sd to either side, of a normal distribution

}  // namespace barm::estimation::internal

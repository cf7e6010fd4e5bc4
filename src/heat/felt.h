#pragma once
// A logger's temperatures in as few steps as a dough needs to feel the same.
//
// A dough of time constant tau in air (or water) at T(t) has   dD/dt = (T - D) / tau.   With steps
// S(t) in the place of T(t) it is off by
//     dE/dt = (T - S - E) / tau,
// and the steps are made as long as |E| stays within a bound. Each has the mean of what it
// replaces, so that the work done by its end is the same. What comes and goes within minutes is not
// felt and makes no step, however far it leaps.
#include <cstddef>
#include <span>

#include "heat/track.h"

namespace barm::heat {

/// tau: the smallest a sample is kept in, a jar of 7 cm, takes half an hour (radius^2 / 5.8
/// diffusivity; docs/model/heat.md).
inline constexpr double time_constant = 0.5;  // h

/// What is aimed at, and how many steps there may be: each costs every draw of a forecast another
/// piece of its run.
inline constexpr double well_felt = 0.25;      // K
inline constexpr std::size_t most_steps = 12;  // then the bound is let grow until they suffice

struct Felt {
  Track track;
  double most_off = 0;  ///< [K] that the dough is ever off by these steps
};

/// Straight lines between readings, flat before the first and after the last. Needs at least one;
/// times ascend (two at one time: a jump), finite, over at most 400 h.
[[nodiscard]] Felt felt_track(std::span<const ProbeReading> readings);

/// How far a dough is off at most by these steps. Same needs.
[[nodiscard]] double most_off(std::span<const ProbeReading> readings, const Track& track);

}  // namespace barm::heat

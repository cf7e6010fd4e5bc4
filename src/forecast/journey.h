#pragma once
// The whole way of a dough through its stages: cold, bulk, folds, divide, shape, proof.
#include <vector>

#include "base/result.h"
#include "forecast/course.h"
#include "forecast/draw.h"
#include "formula/bake.h"
#include "heat/material.h"

namespace barm::forecast {

/// How the dough stands when a stage ends.
struct Stop {
  formula::Step step = formula::Step::bulk;
  Time begin, end;  ///< after mixing
  double rise = 1;  ///< volume over the volume at mixing
  double ph = 6;
  double room_left =
      0;  ///< how much further it could rise before it leaks: limit over volume, minus 1
  bool reached = true;  ///< false when the volume asked for was not reached before the horizon
  double least_room =
      0;  ///< of room_left during the stage: an overproofed dough has been at its limit
  Temperature dough = Temperature::from_celsius(24);  ///< of the dough, at which it ferments
  kinetics::StateOf<double> state{};                  ///< at the end, as kinetics/system.h has it
};

/// The hours of one dough against those on the clock: a dough may run faster or slower than the
/// model for a time.
class Pace {
 public:
  Pace() = default;
  Pace(const Pace&) = default;
  Pace(Pace&&) = default;
  Pace& operator=(const Pace&) = default;
  Pace& operator=(Pace&&) = default;
  virtual ~Pace() = default;

  [[nodiscard]] virtual double own(double clock) const = 0;
  [[nodiscard]] virtual double clock(double own) const = 0;
};

/// A dough that goes its way: what of it is drawn.
struct Walking {
  kinetics::Dough dough;
  kinetics::Parameters<double> parameters;
  double transfer_luck = 0;  ///< as in Draw
  heat::Makeup makeup;
  Mass whole, piece;           ///< of the dough; of one piece, the whole where there are none
  const Pace* pace = nullptr;  ///< none: its hours are those on the clock

  [[nodiscard]] static Walking of(const Draw& draw);
};

/// Sends one dough through the stages of a bake, one after the other. A stage lasts as long as the
/// file says, or until its volume ratio is reached, whichever comes first; the first bulk until the
/// target of `proving` where it says no time, a later one without either likewise, a proof without
/// either two hours. Up to the end of the first bulk the dough has the temperatures of `proving`
/// (warmth.h); afterwards it warms and cools by conduction, as a bulk in a tub, as a piece in a
/// basket, or as the file says, warmed by its own fermentation at the pace at which it comes in.
/// Dividing and shaping even the warmth out and take gas out (data/dough.toml). The horizon of
/// `proving` ends everything. Errors: no_convergence. docs/model/forecast.md.
[[nodiscard]] Result<std::vector<Stop>> journey(const formula::Bake& bake,
                                                const Draw& draw,
                                                const Proving& proving);

}  // namespace barm::forecast

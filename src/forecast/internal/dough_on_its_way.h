#pragma once
// A dough on its way through the stages of a bake. It goes by legs: a leg is fermented by
// whoever runs many at once (walk.h), everything between two legs happens here.
#include <limits>
#include <memory>
#include <optional>
#include <vector>

#include "forecast/bodies.h"
#include "forecast/journey.h"
#include "forecast/many.h"
#include "kinetics/terms.h"

namespace barm::forecast::internal {

/// How far a way was gone in a leg.
struct Gone {
  Passed passed;  ///< in the dough's own hours
  kinetics::StateOf<double> state{};
};

/// One dough: its state, its warmth, the hours behind it. A copy goes a way of its own, so what
/// several ways have in common is gone once. Keeps references to what it was made of.
class DoughOnItsWay {
 public:
  /// `bulk`: its temperatures from mixing to the end of the first bulk.
  DoughOnItsWay(const Walking& dough, const Proving& proving, heat::Track bulk);

  /// Into the place of a stage that takes time. The dough of the first bulk, and of what comes
  /// before it, has the temperatures of the way; later it follows its place by conduction.
  void enter(const formula::Stage& stage, bool up_to_the_bulk);

  /// What is to be fermented there: up to the stage's own end, or to a volume ratio where one is
  /// given, with these handlings, in hours on the clock.
  [[nodiscard]] Case leg(std::optional<double> ratio, const std::vector<Handling>& folds) const;

  /// Goes to where the leg came; true when the stage ended as it should.
  bool take(const Gone& gone, std::optional<double> ratio);

  /// Out of the place, with the warmth layer by layer as the stage ends.
  void leave();

  /// Divides, shapes.
  void handle(formula::Step step);

  /// How the dough stands at the end of a stage.
  [[nodiscard]] Stop stop(formula::Step step, double begin, bool reached) const;

  /// Stops short, as not reached, where less room is left than that.
  void give_up_below(double room) { least_wanted_ = room; }

  /// [h] on the clock.
  [[nodiscard]] double now() const { return t_; }

  /// Whether the horizon ended it.
  [[nodiscard]] bool is_over() const { return t_ >= proving_->horizon.in(hour); }

  [[nodiscard]] double begun() const { return begun_; }

  /// Hours on the clock of the dough's own.
  [[nodiscard]] double clock(double own) const;

  [[nodiscard]] double own(double clock) const;

 private:
  static constexpr double no_end = std::numeric_limits<double>::infinity();

  [[nodiscard]] double end_of(const formula::Stage& stage) const;
  [[nodiscard]] kinetics::Terms<double> terms_at(double celsius) const;
  [[nodiscard]] double rise() const;
  [[nodiscard]] double making() const;
  void come_into_place(const formula::Stage& stage);
  void fade();

  const Walking* dough_;
  const Proving* proving_;
  heat::Track track_;                                               // of the stage
  double track_begin_ = 0;                                          // [h] after mixing
  double start_celsius_;                                            // at mixing
  std::shared_ptr<const kinetics::DoughTerms<double>> any_warmth_;  // of all that go from here
  double celsius_;                                                  // now
  kinetics::StateOf<double> y_;
  double t_ = 0;
  double begun_ = 0, until_ = 0;  // the stage [h]
  double least_room_ = no_end;    // in this stage
  double least_wanted_ = -1;      // of room
  bool divided_ = false;
  bool conducts_ = false;  // in this stage
  heat::Body body_;
  heat::Profile profile_;  // of body_, as the stage began
  heat::Profile settled_;  // as it ends when it lasts to until_
  heat::Place place_;
  std::vector<heat::Warming> warming_;
};

}  // namespace barm::forecast::internal

#pragma once
// A dough on its way through the stages of a bake.
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "forecast/bodies.h"
#include "forecast/journey.h"
#include "kinetics/system.h"

namespace barm::forecast::internal {

/// One dough: its state, its warmth, the hours behind it. A copy goes a way of its own, so what
/// several ways have in common is gone once. Keeps references to what it was made of.
class Way {
 public:
  Way(const formula::Bake& bake, const Draw& draw, const Proving& proving);

  /// Through these stages, one after the other; ends early where one is not reached.
  Result<std::vector<Stop>> walk(std::span<const formula::Stage> stages);

  /// A stage that takes time, in three steps: into its place; fermenting there until it ends by
  /// itself or, where given, at a volume ratio (true when it ended as it should; may go on to a
  /// larger one); out of its place.
  void enter(const formula::Stage& stage);
  Result<bool> ferment_in(const formula::Stage& stage, std::optional<double> ratio);
  void leave();

  /// How the dough stands at the end of a stage.
  [[nodiscard]] Stop stop(formula::Step step, double begin, bool reached) const;

  /// Stops short, as not reached, where less room is left than that.
  void give_up_below(double room) { least_wanted_ = room; }

  /// The volume ratio of a bulk that says neither ratio nor time.
  void aim_for(double ratio) { target_ = ratio; }

  [[nodiscard]] double begun() const { return begun_; }

 private:
  static constexpr double no_end = std::numeric_limits<double>::infinity();

  using State = kinetics::StateOf<double>;

  void handle(formula::Step step);
  Result<bool> stand(const formula::Stage& stage);
  [[nodiscard]] std::optional<double> ratio_of(const formula::Stage& stage) const;
  [[nodiscard]] double end_of(const formula::Stage& stage) const;
  [[nodiscard]] kinetics::Terms<double> terms_at(double celsius) const;
  [[nodiscard]] double rise() const;
  [[nodiscard]] double making() const;
  void come_into_place(const formula::Stage& stage, double lasts);
  void fade();
  [[nodiscard]] bool same_shape(const heat::Body& body) const;
  Result<bool> ferment(double until, std::optional<double> ratio);
  Result<bool> ferment_at_one(double until, std::optional<double> ratio);

  const formula::Bake& bake_;
  const Draw& draw_;
  const Proving& proving_;
  heat::Makeup makeup_;
  heat::Track track_;       // of the stage
  double track_begin_ = 0;  // [h] after mixing
  double start_celsius_;    // at mixing
  double celsius_;          // now
  State y_;
  double t_ = 0;
  double begun_ = 0;               // the stage [h]
  double least_room_ = no_end;     // in this stage
  double least_wanted_ = -no_end;  // of room
  double target_;
  bool divided_ = false;
  bool conducts_ = false;  // in this stage
  bool short_of_room_ = false;
  heat::Body body_;
  heat::Profile profile_;  // of body_, as the stage began
  heat::Place place_;
  std::vector<heat::Warming> warming_;
};

}  // namespace barm::forecast::internal

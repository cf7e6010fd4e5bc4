#pragma once
// How warm the dough is from mixing to the end of its first bulk, and the sample of it in its jar:
// the two branches of one dough.
//
//     const auto warmth = Warmth::of(bake, middle, proving, Branches::both);
//     proving.track = warmth->bulk(draw.transfer_luck);              // decide on this one
//     const Proving sample = warmth->sample(proving, jar, luck);    // compare readings with this
//     one
//
// Both run the same kinetics. Where temperatures were logged, put heat::felt_track(readings) in
// place of either track.
#include <optional>
#include <vector>

#include "base/result.h"
#include "forecast/bodies.h"
#include "forecast/course.h"

namespace barm::forecast {

/// Which of the two are asked for.
enum class Branches { bulk, both };

class Warmth {
 public:
  /// The bulk is kept at its temperature unless the bake names a vessel for it, a temperature of
  /// the dough as mixed, air that recovers, or a cold before it; then it follows its places by
  /// conduction, warmed by its own fermentation. How much that gives is taken from the typical
  /// dough, run twice. Errors: no_convergence.
  [[nodiscard]] static Result<Warmth> of(const formula::Bake& bake,
                                         const Draw& book,
                                         const Proving& proving,
                                         Branches branches = Branches::bulk);

  /// Whether the dough follows its places.
  [[nodiscard]] bool follows() const { return follows_; }

  /// The dough's temperatures; empty when it is kept at one.
  [[nodiscard]] heat::Track bulk(double luck = 0) const;

  /// The sample's.
  [[nodiscard]] heat::Track sample(const formula::Jar& jar, double luck = 0) const;

  /// How the sample is proved: as the bulk, at its own temperatures, without the folds, losing gas
  /// through its own surface.
  [[nodiscard]] Proving sample(const Proving& bulk, const formula::Jar& jar, double luck = 0) const;

 private:
  // Where the dough stands for a time.
  struct Stay {
    formula::Surroundings surroundings;
    Mass mass;  // in one vessel
    heat::Place place;
    Temperature kept;
    double rise = 1;  // in the middle of it: for shape and bubbles
    double from = 0;  // [h] after mixing
    Time lasts;
  };

  // How warm the dough is in one stay, on the stay's own hours.
  struct Felt {
    double from = 0;  // [h] after mixing
    std::vector<heat::ProbeReading> readings;
  };

  friend class BulksByLuck;

  [[nodiscard]] static heat::Track track_of(const std::vector<Felt>& stays,
                                            double step = heat::Track::usual_step);
  [[nodiscard]] std::vector<Felt> felt(double luck) const;

  template <class BodyOf, class PlaceOf>
  [[nodiscard]] std::vector<Felt> through(const BodyOf& body_of,
                                          const PlaceOf& place_of_stay) const;

  bool follows_ = false;
  std::vector<Stay> stays_;  // the colds before the bulk, and the bulk
  heat::Makeup makeup_;
  Temperature start_;
  std::vector<heat::Warming> warming_;  // from mixing on
};

/// The bulks of many doughs that differ in their luck alone, for less: the temperatures at whole
/// numbers of it are worked out, and between them a cubic goes through the four nearest. Within
/// 0.01 K of Warmth::bulk() at every moment; what lies outside is worked out. Of a warmth that
/// follows.
class BulksByLuck {
 public:
  explicit BulksByLuck(Warmth warmth);

  [[nodiscard]] heat::Track operator()(double luck, double step = heat::Track::usual_step) const;

 private:
  static constexpr int farthest = 5;

  Warmth warmth_;
  std::vector<std::vector<Warmth::Felt>> at_;  // of -farthest, …, farthest
};

/// The heat of a dough's fermentation, from a course with a curve.
[[nodiscard]] std::vector<heat::Warming> warming_of(const Course& course);

}  // namespace barm::forecast

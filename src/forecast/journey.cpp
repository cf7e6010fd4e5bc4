#include "forecast/journey.h"

#include <array>

#include "forecast/internal/walk.h"

namespace barm::forecast {

Walking Walking::of(const Draw& draw) {
  const Mass piece = draw.bowl.pieces > 0 ? draw.bowl.piece : draw.bowl.dough;
  return {draw.dough,
          draw.parameters,
          draw.transfer_luck,
          makeup_of(draw),
          draw.bowl.dough,
          piece,
          nullptr};
}

Result<std::vector<Stop>> journey(const formula::Bake& bake,
                                  const Draw& draw,
                                  const Proving& proving) {
  const Walking dough = Walking::of(draw);
  std::array walker{internal::Walker{internal::DoughOnItsWay(dough, proving, track_of(proving))}};
  internal::WalkOptions options;
  options.accuracy = proving.accuracy;
  options.surface = proving.surface;
  options.threads = 1;
  if (auto error = internal::walk(walker, bake.stages, bake.bulk(), proving.target, options))
    return failure(*error);
  return std::move(walker[0].stops);
}

}  // namespace barm::forecast

#include "forecast/journey.h"

#include "forecast/internal/way.h"

namespace barm::forecast {

Result<std::vector<Stop>> journey(const formula::Bake& bake,
                                  const Draw& draw,
                                  const Proving& proving) {
  return internal::Way(bake, draw, proving).walk(bake.stages);
}

}  // namespace barm::forecast

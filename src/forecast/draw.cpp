#include "forecast/draw.h"

#include <functional>

#include "forecast/dough_of.h"
#include "forecast/levain.h"
#include "larder/ingredient.h"
#include "numerics/random.h"

namespace barm::forecast {

namespace {

Result<std::vector<larder::Composition>> settle(const formula::Bake& bake,
                                                const kinetics::Parameters<double>& parameters,
                                                const std::function<double()>& normal) {
  std::vector<larder::Composition> settled;
  for (const formula::Portion& portion : bake.bowl) {
    if (portion.levain && bake.levain) {
      const auto starter = larder::drawn(bake.levain->starter, normal);
      if (!starter) return failure(starter);
      const auto flour = larder::drawn(bake.levain->flour, normal);
      if (!flour) return failure(flour);
      const auto levain = fermented(*bake.levain, *starter, *flour, parameters);
      if (!levain) return failure(levain);
      settled.push_back(*levain);
      continue;
    }
    const auto composition = larder::drawn(portion.ingredient, normal);
    if (!composition) return failure(composition);
    settled.push_back(*composition);
  }
  return settled;
}

}  // namespace

Result<Draw> draw(const formula::Bake& bake,
                  unsigned long long seed,
                  int index,
                  const kinetics::JointPrior& prior) {
  numerics::Random random(seed, static_cast<unsigned long long>(index + 1));
  const bool typical = index < 0;
  const auto parameters = typical ? kinetics::middle(prior) : kinetics::drawn(random, prior);
  return draw_of(bake, parameters, [&]() -> double { return typical ? 0.0 : random.normal(); });
}

Result<Draw> draw_of(const formula::Bake& bake,
                     const kinetics::Parameters<double>& parameters,
                     const std::function<double()>& normal) {
  Draw drawn;
  drawn.parameters = parameters;
  auto settled = settle(bake, parameters, normal);
  if (!settled) return failure(settled);
  auto bowl = formula::in_the_bowl(bake, *settled);
  if (!bowl) return failure(bowl);
  drawn.dough = dough_of(*bowl, *settled);
  drawn.transfer_luck = normal();
  drawn.settled = std::move(*settled);
  drawn.bowl = std::move(*bowl);
  return drawn;
}

}  // namespace barm::forecast

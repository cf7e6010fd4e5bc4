#include "forecast/draw.h"

#include <functional>
#include <memory>
#include <mutex>

#include "forecast/dough_of.h"
#include "forecast/levain.h"
#include "forecast/levain_told.h"
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

// All that told_by_levain() goes by, in numbers.
Result<std::vector<double>> all_told(const formula::Levain& levain,
                                     const kinetics::JointPrior& prior) {
  std::vector<double> all(prior.centre.begin(), prior.centre.end());
  for (const auto& row : prior.factor) all.insert(all.end(), row.begin(), row.end());
  for (const larder::Ingredient* one : {&levain.starter, &levain.flour}) {
    const auto typical = larder::typical(*one);
    if (!typical) return failure(typical);
    all.insert(all.end(), typical->value.begin(), typical->value.end());
  }
  for (const double number : {levain.ripe,
                              levain.fresh_flour,
                              levain.water,
                              levain.temperature.celsius(),
                              levain.doubled_in.value_or(Time{}).si(),
                              levain.rose.value_or(0)})
    all.push_back(number);
  return all;
}

// The prior once the levain has told. All draws of a bake ask for the same one, so the last is
// kept.
Result<std::shared_ptr<const kinetics::JointPrior>> prior_once_told(
    const formula::Levain& levain, const kinetics::JointPrior& prior) {
  static std::mutex guard;
  static std::vector<double> last_told;
  static std::shared_ptr<const kinetics::JointPrior> last;
  auto told = all_told(levain, prior);
  if (!told) return failure(told);
  const std::scoped_lock lock(guard);
  if (last && last_told == *told) return last;
  const auto now = told_by_levain(levain, prior);
  if (!now) return failure(now);
  last = std::make_shared<const kinetics::JointPrior>(*now);
  last_told = std::move(*told);
  return last;
}

// As drawn, from the start of the draw's random numbers.
kinetics::Parameters<double> drawn_or_middle(numerics::Random& random,
                                             int index,
                                             const kinetics::JointPrior& prior) {
  return index < 0 ? kinetics::middle(prior) : kinetics::drawn(random, prior);
}

Result<kinetics::Parameters<double>> parameters_drawn(const formula::Bake& bake,
                                                      numerics::Random& random,
                                                      int index,
                                                      const kinetics::JointPrior& prior) {
  if (!bake.levain || (!bake.levain->doubled_in && !bake.levain->rose))
    return drawn_or_middle(random, index, prior);
  const auto told = prior_once_told(*bake.levain, prior);
  if (!told) return failure(told);
  return drawn_or_middle(random, index, **told);
}

numerics::Random random_of(unsigned long long seed, int index) {
  return numerics::Random(seed, static_cast<unsigned long long>(index + 1));
}

}  // namespace

Result<kinetics::Parameters<double>> parameters_of(const formula::Bake& bake,
                                                   unsigned long long seed,
                                                   int index,
                                                   const kinetics::JointPrior& prior) {
  numerics::Random random = random_of(seed, index);
  return parameters_drawn(bake, random, index, prior);
}

Result<Draw> draw(const formula::Bake& bake,
                  unsigned long long seed,
                  int index,
                  const kinetics::JointPrior& prior) {
  numerics::Random random = random_of(seed, index);
  const auto parameters = parameters_drawn(bake, random, index, prior);
  if (!parameters) return failure(parameters);
  return draw_of(bake, *parameters, [&]() -> double { return index < 0 ? 0.0 : random.normal(); });
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

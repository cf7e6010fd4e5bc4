#include "forecast/draw.h"

#include <functional>
#include <memory>
#include <mutex>

#include "forecast/dough_of.h"
#include "forecast/internal/for_each.h"
#include "forecast/levain.h"
#include "forecast/levain_told.h"
#include "larder/ingredient.h"
#include "numerics/random.h"

namespace barm::forecast {

namespace {

// A draw whose levain is not fermented yet: all that is random of it.
struct Begun {
  Draw draw;
  std::vector<std::size_t> levains;  // portions that are levain
  std::vector<LevainDraw> fed;       // of each of them
};

Result<Begun> begin(const formula::Bake& bake,
                    const kinetics::Parameters<double>& parameters,
                    const std::function<double()>& normal) {
  Begun begun;
  begun.draw.parameters = parameters;
  const auto settle = [&](const larder::Ingredient& what, larder::Composition& into) {
    auto drawn = larder::drawn(what, normal);
    if (drawn) into = *drawn;
    return drawn ? std::nullopt : std::optional(drawn.error());
  };
  for (std::size_t i = 0; i < bake.bowl.size(); ++i) {
    auto& settled = begun.draw.settled.emplace_back();
    std::optional<Error> wrong;
    if (bake.bowl[i].levain && bake.levain) {
      LevainDraw& fed = begun.fed.emplace_back();
      fed.parameters = parameters;
      begun.levains.push_back(i);
      wrong = settle(bake.levain->starter, fed.starter);
      if (!wrong) wrong = settle(bake.levain->flour, fed.flour);
    } else {
      wrong = settle(bake.bowl[i].ingredient, settled);
    }
    if (wrong) return failure(*wrong);
  }
  begun.draw.transfer_luck = normal();
  return begun;
}

// Their levains fermented, all at once.
std::optional<Error> ferment_levains(const formula::Bake& bake,
                                     std::vector<Begun>& all,
                                     const Together& together) {
  std::vector<LevainDraw> fed;
  for (const Begun& one : all) fed.insert(fed.end(), one.fed.begin(), one.fed.end());
  if (fed.empty()) return std::nullopt;
  const auto levains = fermented(*bake.levain, fed, together);
  if (!levains) return levains.error();
  auto next = levains->begin();
  for (Begun& one : all) {
    for (const std::size_t portion : one.levains) one.draw.settled[portion] = *next++;
  }
  return std::nullopt;
}

// What is in the bowl then.
std::optional<Error> mix(const formula::Bake& bake, Draw& draw) {
  auto bowl = formula::in_the_bowl(bake, draw.settled);
  if (!bowl) return bowl.error();
  draw.dough = dough_of(*bowl, draw.settled);
  draw.bowl = std::move(*bowl);
  return std::nullopt;
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

double all_typical() { return 0; }

Result<std::vector<Draw>> doughs_of(const formula::Bake& bake,
                                    std::size_t count,
                                    const std::function<Result<Asked>(std::size_t)>& asked,
                                    const Together& together) {
  std::vector<Begun> begun(count);
  const auto every = [&](const auto& one) {
    return internal::for_each(count, together.threads, together.cancelled, one);
  };
  auto wrong = every([&](std::size_t i) -> std::optional<Error> {
    const auto dough = asked(i);
    if (!dough) return dough.error();
    auto one = begin(bake, dough->parameters, dough->normal);
    if (!one) return one.error();
    begun[i] = std::move(*one);
    return std::nullopt;
  });
  if (!wrong) wrong = ferment_levains(bake, begun, together);
  if (!wrong) wrong = every([&](std::size_t i) { return mix(bake, begun[i].draw); });
  if (wrong) return failure(*wrong);
  std::vector<Draw> out;
  out.reserve(count);
  for (Begun& one : begun) out.push_back(std::move(one.draw));
  return out;
}

Result<std::vector<Draw>> draws(const formula::Bake& bake,
                                const Options& options,
                                int first,
                                int count) {
  const auto asked = [&](std::size_t i) -> Result<Asked> {
    const int index = first + static_cast<int>(i);
    numerics::Random random = random_of(options.seed, index);
    const auto parameters = parameters_drawn(bake, random, index, *options.prior);
    if (!parameters) return failure(parameters);
    if (index < 0) return Asked{*parameters, all_typical};
    return Asked{*parameters, [random]() mutable { return random.normal(); }};
  };
  return doughs_of(
      bake, static_cast<std::size_t>(count), asked, {options.threads, options.cancelled});
}

Result<Draw> draw(const formula::Bake& bake,
                  unsigned long long seed,
                  int index,
                  const kinetics::JointPrior& prior) {
  Options options;
  options.seed = seed;
  options.prior = &prior;
  options.threads = 1;
  auto one = draws(bake, options, index, 1);
  if (!one) return failure(one);
  return std::move(one->front());
}

Result<Draw> draw_of(const formula::Bake& bake,
                     const kinetics::Parameters<double>& parameters,
                     const std::function<double()>& normal) {
  auto one = doughs_of(
      bake, 1, [&](std::size_t) -> Result<Asked> { return Asked{parameters, normal}; }, {1});
  if (!one) return failure(one);
  return std::move(one->front());
}

Result<Draw> without(const formula::Bake& bake,
                     Draw drawn,
                     const std::vector<kinetics::Factor>& factors) {
  for (const kinetics::Factor factor : factors)
    drawn.settled = without(bake, std::move(drawn.settled), factor);
  auto bowl = formula::in_the_bowl(bake, drawn.settled);
  if (!bowl) return failure(bowl);
  drawn.bowl = *std::move(bowl);
  drawn.dough = dough_of(drawn.bowl, drawn.settled);
  return drawn;
}

}  // namespace barm::forecast

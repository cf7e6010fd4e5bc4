#include "forecast/ready_for.h"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <thread>

#include "forecast/warmth.h"
#include "generated/constants.h"
#include "larder/property.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

using formula::Step;

constexpr double shortest = 1.1;
constexpr double longest = 5;
constexpr int most_draws = 120;
constexpr double too_long = -1;

// The bake with its first bulk ending at that ratio.
formula::Bake ending_at(formula::Bake bake, double ratio) {
  for (formula::Stage& stage : bake.stages) {
    if (stage.step != Step::bulk) continue;
    stage.until = ratio;
    stage.lasts.reset();
    break;
  }
  bake.target = ratio;
  return bake;
}

// One dough and the ways it may go.
class Trial {
 public:
  Trial(const formula::Bake& bake, Draw draw, Proving proving, heat::Track track)
      : bake_(bake), draw_(std::move(draw)), proving_(std::move(proving)) {
    proving_.track = std::move(track);
    proving_.accuracy.relative = 1e-5;
    proving_.accuracy.absolute = 1e-8;
  }

  // The least room between the bulk's end and the oven; below zero when the bulk never gets there.
  double room(double ratio) {
    proving_.target = ratio;
    const auto stops = journey(ending_at(bake_, ratio), draw_, proving_);
    if (!stops) {
      error_ = stops.error();
      return too_long;
    }
    double least = longest;
    for (const Stop& stop : *stops) {
      if (!stop.reached) return too_long;
      least = std::min(least, stop.least_room);
    }
    return least;
  }

  // The largest ratio that leaves so much; `shortest` when none does.
  double largest(double wanted) {
    double low = shortest;
    double high = longest;
    if (room(low) < wanted) return shortest;
    while (high - low > 0.01) {
      const double middle = 0.5 * (low + high);
      (room(middle) >= wanted ? low : high) = middle;
    }
    return low;
  }

  [[nodiscard]] const std::optional<Error>& error() const { return error_; }

 private:
  const formula::Bake& bake_;
  Draw draw_;
  Proving proving_;
  std::optional<Error> error_;
};

struct Found {
  double ratio = 1;
  bool asked_leaves = false;
};

bool is_stiff(const Draw& draw) {
  for (const larder::Composition& c : draw.settled) {
    const double hydration = c[larder::Property::hydration];
    if (hydration > 0) return hydration < constants::trade::stiff_below.value.si();
  }
  return true;
}

double asked_of(const formula::Bake& bake, const Options& options) {
  if (options.target > 0) return options.target;
  return bake.bulk()->until.value_or(bake.target);
}

}  // namespace

Result<std::optional<ReadyFor>> ready_for(const formula::Bake& bake, const Options& options) {
  const formula::Stage* bulk = bake.bulk();
  ReadyFor answer;
  bool behind = false;
  for (const formula::Stage& stage : bake.stages) {
    if (behind && stage.step != Step::fold && stage.step != Step::bulk) {
      answer.after.push_back(stage.step);
      const Time usual = stage.step == Step::proof ? 2.0 * hour : Time{};
      if (stage.step == Step::cold) answer.cold += stage.lasts.value_or(usual);
      if (stage.step == Step::proof) answer.proof += stage.lasts.value_or(usual);
    }
    behind = behind || &stage == bulk;
  }
  if (bulk == nullptr || answer.after.empty()) return std::optional<ReadyFor>();
  const auto book = draw(bake, options.seed, -1, *options.prior);
  if (!book) return failure(book);
  Proving proving = proving_of(bake, options);
  const auto warmth = Warmth::of(bake, *book, proving);
  if (!warmth) return failure(warmth);

  answer.room = constants::oven::room.value.si();
  answer.asked = asked_of(bake, options);
  answer.draws = std::min(options.draws, most_draws);
  std::vector<Found> found(static_cast<std::size_t>(answer.draws));
  std::atomic<std::size_t> next{0};
  std::mutex guard;
  std::optional<Error> error;
  const auto work = [&] {
    for (std::size_t i = next++; i < found.size(); i = next++) {
      const auto drawn = draw(bake, options.seed, static_cast<int>(i), *options.prior);
      std::optional<Error> wrong;
      if (options.cancelled && options.cancelled()) {
        wrong = Error{ErrorCode::cancelled, "", "stopped"};
      } else if (!drawn) {
        wrong = drawn.error();
      } else {
        Trial trial(bake, *drawn, proving, warmth->bulk(drawn->transfer_luck));
        found[i].ratio = trial.largest(answer.room);
        found[i].asked_leaves = trial.room(answer.asked) >= answer.room;
        wrong = trial.error();
      }
      if (!wrong) continue;
      const std::scoped_lock lock(guard);
      if (!error) error = wrong;
      next = found.size();
    }
  };
  {
    const int threads = options.threads > 0
                            ? options.threads
                            : static_cast<int>(std::max(1U, std::thread::hardware_concurrency()));
    std::vector<std::jthread> others;
    for (int t = 1; t < threads; ++t) others.emplace_back(work);
    work();
  }
  if (error) return failure(error->code, error->where, error->message);

  std::vector<double> ratios;
  double leaves = 0;
  double none = 0;
  for (const Found& one : found) {
    ratios.push_back(one.ratio);
    leaves += one.asked_leaves ? 1 : 0;
    none += one.ratio <= shortest ? 1 : 0;
  }
  const auto sample = numerics::sorted(std::move(ratios));
  answer.p10 = numerics::quantile(sample, 0.1);
  answer.p50 = numerics::quantile(sample, 0.5);
  answer.p90 = numerics::quantile(sample, 0.9);
  answer.asked_leaves = Probability(leaves / answer.draws);
  answer.too_long = Probability(none / answer.draws);
  answer.stiff_mild = {
      true, constants::trade::stiff_least.value.si(), constants::trade::stiff_most.value.si()};
  answer.liquid_sour = {
      false, constants::trade::liquid_least.value.si(), constants::trade::liquid_most.value.si()};
  answer.starter_is_stiff = is_stiff(*book);
  proving.track = warmth->bulk();
  proving.target = answer.p50;
  const auto stops = journey(ending_at(bake, answer.p50), *book, proving);
  if (!stops) return failure(stops);
  if (!stops->empty() && stops->back().reached) answer.oven = stops->back();
  return std::optional(answer);
}

}  // namespace barm::forecast

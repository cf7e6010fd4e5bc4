#include "forecast/ready_for.h"

#include <algorithm>
#include <cmath>
#include <span>

#include "forecast/internal/for_each.h"
#include "forecast/internal/way.h"
#include "forecast/warmth.h"
#include "generated/constants.h"
#include "larder/property.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

using formula::Stage;
using formula::Step;
using internal::Way;

constexpr double shortest = 1.1;
constexpr double longest = 5;
constexpr int most_draws = 120;
constexpr double too_long = -1;
constexpr double near_enough = 0.002;  // of room: finer than a ratio is read off a jar
constexpr int tries_by_power = 6;

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

// One dough and the ways it may go. They part where the bulk ends, so what comes before is gone
// once and a bulk that goes further goes on from one that ended sooner.
class Trial {
 public:
  Trial(const formula::Bake& bake, const Draw& draw, const Proving& proving, double wanted)
      : bake_(ending_at(bake, longest)),
        bulk_(static_cast<std::size_t>(bake_.bulk() - bake_.stages.data())),
        draw_(draw),
        proving_(at_ease(proving)),
        wanted_(wanted) {
    Way way(bake_, draw_, proving_);
    const auto before = way.walk(std::span(bake_.stages).first(bulk_));
    if (!before) error_ = before.error();
    if (!before || (!before->empty() && !before->back().reached)) return;
    way.enter(bake_.stages[bulk_]);
    way.give_up_below(wanted_);
    ended_.push_back({1, way});
  }

  Trial(const Trial&) = delete;
  Trial& operator=(const Trial&) = delete;
  ~Trial() = default;

  // The least room between the bulk's end and the oven; below zero when the bulk never gets there,
  // or not with the room wanted.
  double room(double ratio) {
    if (ended_.empty()) return too_long;
    Way way = last_before(ratio);
    const Stage& bulk = bake_.stages[bulk_];
    way.aim_for(ratio);
    const auto reached = way.ferment_in(bulk, ratio);
    if (!reached) error_ = reached.error();
    if (!reached || !*reached) return too_long;
    ended_.push_back({ratio, way});
    way.give_up_below(-1);
    way.leave();
    double least = std::min(longest, way.stop(Step::bulk, way.begun(), true).least_room);
    const auto stops = way.walk(std::span(bake_.stages).subspan(bulk_ + 1));
    if (!stops) error_ = stops.error();
    if (!stops) return too_long;
    for (const Stop& stop : *stops) {
      if (!stop.reached) return too_long;
      least = std::min(least, stop.least_room);
    }
    return least;
  }

  // The largest ratio that leaves what is wanted, from the room that `ratio` leaves; `shortest`
  // when none does.
  double largest(double ratio, double left) {
    double low = shortest;
    double high = longest;
    double steepness = 1;  // room + 1 as a power of the ratio, -steepness
    for (int tries = 0; high - low > 0.01; ++tries) {
      if (std::abs(left - wanted_) < near_enough) return ratio;
      (left >= wanted_ ? low : high) = std::clamp(ratio, low, high);
      const bool by_power = left > too_long && tries < tries_by_power;
      double next = by_power ? ratio * std::pow((left + 1) / (wanted_ + 1), 1 / steepness) : 0;
      if (!(next > low && next < high)) next = 0.5 * (low + high);
      const double then = room(next);
      if (left > too_long && then > too_long)
        steepness =
            std::clamp(-std::log((then + 1) / (left + 1)) / std::log(next / ratio), 0.3, 3.0);
      ratio = next;
      left = then;
    }
    return low;
  }

  [[nodiscard]] const std::optional<Error>& error() const { return error_; }

 private:
  struct Ended {
    double ratio;
    Way way;  // still in the place of the bulk
  };

  static Proving at_ease(Proving proving) {
    proving.accuracy.relative = 1e-5;
    proving.accuracy.absolute = 1e-8;
    return proving;
  }

  [[nodiscard]] const Way& last_before(double ratio) const {
    const Ended* last = &ended_.front();
    for (const Ended& one : ended_) {
      if (one.ratio <= ratio && one.ratio > last->ratio) last = &one;
    }
    return last->way;
  }

  formula::Bake bake_;
  std::size_t bulk_;
  const Draw& draw_;
  Proving proving_;
  double wanted_;
  std::vector<Ended> ended_;
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
  answer.made.resize(found.size());
  const auto find = [&](std::size_t i) -> std::optional<Error> {
    auto drawn = draw(bake, options.seed, static_cast<int>(i), *options.prior);
    if (!drawn) return drawn.error();
    answer.made[i] = std::move(*drawn);
    const Draw& dough = answer.made[i];
    Proving its_own = proving;
    its_own.track = warmth->bulk(dough.transfer_luck);
    Trial trial(bake, dough, its_own, answer.room);
    const double left = trial.room(answer.asked);
    found[i] = {trial.largest(answer.asked, left), left >= answer.room};
    return trial.error();
  };
  if (auto error = internal::for_each(found.size(), options.threads, options.cancelled, find))
    return failure(error->code, error->where, error->message);

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

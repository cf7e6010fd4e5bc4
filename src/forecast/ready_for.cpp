#include "forecast/ready_for.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <span>

#include "forecast/ensemble.h"
#include "forecast/internal/crowd.h"
#include "forecast/internal/for_each.h"
#include "forecast/internal/walk.h"
#include "forecast/warmth.h"
#include "generated/constants.h"
#include "larder/property.h"
#include "numerics/quantiles.h"

namespace barm::forecast {

namespace {

using formula::Stage;
using formula::Step;
using internal::Walker;

constexpr double shortest = 1.1;
constexpr double longest = 5;
constexpr int most_draws = 120;
constexpr double too_long = -1;
constexpr double near_enough = 0.005;  // of room: finer than a ratio is read off a jar
constexpr int tries_by_power = 6;

// The largest ratio that leaves the room wanted, from one look after another at how much a ratio
// leaves: room + 1 goes about as a power of the ratio, halving where it does not.
class Search {
 public:
  Search(double asked, double wanted) : ratio_(asked), wanted_(wanted) {}

  // The ratio to be looked at next.
  [[nodiscard]] double ratio() const { return ratio_; }

  [[nodiscard]] bool found() const { return found_; }

  [[nodiscard]] double answer() const { return answer_; }

  // So much is left at that ratio; below zero where the dough never gets there with the room.
  void look(double left) {
    if (tries_ > 0 && left_ > too_long && left > too_long) {
      const double power = -std::log((left + 1) / (left_ + 1)) / std::log(ratio_ / before_);
      steepness_ = std::clamp(power, 0.3, 3.0);
    }
    left_ = left;
    before_ = ratio_;
    if (high_ - low_ <= 0.01) return settle(low_);
    if (std::abs(left - wanted_) < near_enough) return settle(ratio_);
    (left >= wanted_ ? low_ : high_) = std::clamp(ratio_, low_, high_);
    const bool by_power = left > too_long && tries_ < tries_by_power;
    double next = by_power ? ratio_ * std::pow((left + 1) / (wanted_ + 1), 1 / steepness_) : 0;
    if (!(next > low_ && next < high_)) next = 0.5 * (low_ + high_);
    if (high_ - low_ <= 0.01) return settle(low_);
    ratio_ = next;
    ++tries_;
  }

 private:
  void settle(double ratio) {
    answer_ = ratio;
    found_ = true;
  }

  double ratio_, wanted_;
  double low_ = shortest, high_ = longest;
  double steepness_ = 1;  // room + 1 as a power of the ratio, -steepness
  double before_ = 1, left_ = 0;
  int tries_ = 0;
  bool found_ = false;
  double answer_ = shortest;
};

// All doughs and the ways they may go. They part where the bulk ends, so what comes before is gone
// once and a bulk that goes further goes on from one that ended sooner.
class Trials {
 public:
  Trials(const Plan& plan,
         const std::vector<Walking>& doughs,
         const std::function<heat::Track(std::size_t)>& bulk,
         const Proving& proving,
         const Options& options,
         double wanted)
      : stages_(plan.bake.stages), wanted_(wanted), doughs_(doughs) {
    walking_.threads = options.threads;
    walking_.cancelled = options.cancelled;
    while (stages_[bulk_].step != Step::bulk) ++bulk_;
    behind_ = bulk_ + 1;
    while (behind_ < stages_.size() && stages_[behind_].step == Step::fold) ++behind_;
    stages_[bulk_].until = longest;
    stages_[bulk_].lasts.reset();
    for (std::size_t i = 0; i < doughs.size(); ++i)
      starting_.push_back(Walker{internal::DoughOnItsWay(doughs[i], proving, bulk(i))});
  }

  std::optional<Error> set_out() {
    if (auto error = internal::walk(
            starting_, std::span(stages_).first(bulk_), &stages_[bulk_], longest, walking_))
      return error;
    for (Walker& walker : starting_) {
      walker.way.enter(stages_[bulk_], true);
      walker.way.give_up_below(wanted_);
      ended_.push_back({{1, walker.way}});
    }
    return std::nullopt;
  }

  // The least room between the bulk's end and the oven of those dough at those ratios.
  Result<std::vector<double>> rooms(const std::vector<std::size_t>& of,
                                    const std::vector<double>& ratios) {
    std::vector<Walker> walkers;
    for (std::size_t k = 0; k < of.size(); ++k)
      walkers.push_back(Walker{last_before(of[k], ratios[k]), {}, starting_[of[k]].on});
    const auto folds = std::span(stages_).subspan(bulk_ + 1, behind_ - bulk_ - 1);
    const auto reached = internal::ferment(
        walkers, [&](std::size_t k) { return std::optional(ratios[k]); }, folds, walking_);
    if (!reached) return failure(reached);
    std::vector<double> least(of.size(), too_long);
    for (std::size_t k = 0; k < of.size(); ++k) {
      Walker& walker = walkers[k];
      walker.on = (*reached)[k] != 0;
      if (!walker.on) continue;
      ended_[of[k]].push_back({ratios[k], walker.way});
      walker.way.give_up_below(-1);
      walker.way.leave();
      least[k] =
          std::min(longest, walker.way.stop(Step::bulk, walker.way.begun(), true).least_room);
    }
    if (auto error = internal::walk(
            walkers, std::span(stages_).subspan(behind_), nullptr, longest, walking_))
      return failure(*error);
    for (std::size_t k = 0; k < of.size(); ++k) {
      for (const Stop& stop : walkers[k].stops)
        least[k] = stop.reached ? std::min(least[k], stop.least_room) : too_long;
      if ((*reached)[k] != 0 && !walkers[k].stops.empty()) last_[of[k]] = walkers[k].stops.back();
    }
    return least;
  }

  // How each dough went into the oven by the last ratio it was looked at; none where it never did.
  [[nodiscard]] std::vector<Stop> at_the_oven() const {
    std::vector<Stop> stops;
    for (const auto& [dough, stop] : last_) stops.push_back(stop);
    return stops;
  }

 private:
  struct Ended {
    double ratio;
    internal::DoughOnItsWay way;  // still in the place of the bulk
  };

  [[nodiscard]] internal::DoughOnItsWay last_before(std::size_t dough, double ratio) const {
    const Ended* last = &ended_[dough].front();
    for (const Ended& one : ended_[dough]) {
      if (one.ratio <= ratio && one.ratio > last->ratio) last = &one;
    }
    return last->way;
  }

  std::vector<Stage> stages_;
  std::size_t bulk_ = 0, behind_ = 0;
  double wanted_;
  const std::vector<Walking>& doughs_;
  internal::WalkOptions walking_;
  std::vector<Walker> starting_;
  std::vector<std::vector<Ended>> ended_;
  std::map<std::size_t, Stop> last_;
};

// The middle of how the doughs stand.
std::optional<Stop> middle_of(const std::vector<Stop>& stops) {
  if (stops.empty()) return std::nullopt;
  const auto half = [&](auto what) {
    std::vector<double> values;
    for (const Stop& stop : stops) values.push_back(what(stop));
    return numerics::quantile(numerics::sorted(std::move(values)), 0.5);
  };
  Stop out = stops.front();
  out.end = half([](const Stop& one) { return one.end.in(hour); }) * hour;
  out.rise = half([](const Stop& one) { return one.rise; });
  out.ph = half([](const Stop& one) { return one.ph; });
  out.room_left = half([](const Stop& one) { return one.room_left; });
  out.dough = Temperature::from_celsius(half([](const Stop& one) { return one.dough.celsius(); }));
  return out;
}

bool is_stiff(const Draw& draw) {
  for (const larder::Composition& c : draw.settled) {
    const double hydration = c[larder::Property::hydration];
    if (hydration > 0) return hydration < constants::trade::stiff_below.value.si();
  }
  return true;
}

// What comes after the first bulk; empty where nothing does.
ReadyFor after_the_bulk(const formula::Bake& bake) {
  ReadyFor answer;
  bool behind = false;
  for (const Stage& stage : bake.stages) {
    if (behind && stage.step != Step::fold && stage.step != Step::bulk) {
      answer.after.push_back(stage.step);
      const Time usual = formula::row(stage.step).usual.value_or(Time{});
      if (stage.step == Step::cold) answer.cold += stage.lasts.value_or(usual);
      if (stage.step == Step::proof) answer.proof += stage.lasts.value_or(usual);
    }
    behind = behind || &stage == bake.bulk();
  }
  return answer;
}

// The ratios of all doughs, and how many leave the room wanted at the ratio asked.
struct Ratios {
  std::vector<double> largest;
  int asked_leaves = 0;
  std::vector<Stop> at_the_oven;
};

Result<Ratios> find(Trials& trials, std::size_t doughs, double asked, double wanted) {
  if (auto error = trials.set_out()) return failure(*error);
  std::vector<Search> searches(doughs, Search(asked, wanted));
  Ratios out;
  for (bool first = true;; first = false) {
    std::vector<std::size_t> of;
    std::vector<double> ratios;
    for (std::size_t i = 0; i < doughs; ++i) {
      if (searches[i].found()) continue;
      of.push_back(i);
      ratios.push_back(searches[i].ratio());
    }
    if (of.empty()) break;
    const auto rooms = trials.rooms(of, ratios);
    if (!rooms) return failure(rooms);
    for (std::size_t k = 0; k < of.size(); ++k) {
      if (first && (*rooms)[k] >= wanted) ++out.asked_leaves;
      searches[of[k]].look((*rooms)[k]);
    }
  }
  for (const Search& search : searches) out.largest.push_back(search.answer());
  out.at_the_oven = trials.at_the_oven();
  return out;
}

}  // namespace

Result<std::optional<ReadyFor>> ready_for(const formula::Bake& asked,
                                          const Options& options,
                                          Made& made) {
  const Plan plan = Plan::of(asked, options);
  ReadyFor answer = after_the_bulk(plan.bake);
  if (answer.after.empty()) return std::optional<ReadyFor>();
  const auto book = made.middle(plan.bake, options);
  if (!book) return failure(book);
  const Proving proving = proving_of(plan.bake, options);
  answer.room = constants::oven::room.value.si();
  answer.asked = plan.bake.target;
  answer.draws = std::min(options.draws, most_draws);
  const auto drawn = made.draws(plan.bake, options, static_cast<std::size_t>(answer.draws));
  if (!drawn) return failure(drawn);
  std::vector<Walking> doughs;
  for (const Draw& one : *drawn) doughs.push_back(Walking::of(one));
  const auto bulks = made.bulks(plan.bake, options, proving, doughs, TrackSteps::usual);
  if (!bulks) return failure(bulks);
  Trials trials(plan, doughs, *bulks, proving, options, answer.room);
  auto found = find(trials, doughs.size(), answer.asked, answer.room);
  if (!found) return failure(found);

  const auto none = std::count_if(
      found->largest.begin(), found->largest.end(), [](double ratio) { return ratio <= shortest; });
  const auto sample = numerics::sorted(std::move(found->largest));
  answer.p10 = numerics::quantile(sample, 0.1);
  answer.p50 = numerics::quantile(sample, 0.5);
  answer.p90 = numerics::quantile(sample, 0.9);
  answer.asked_leaves = Probability(static_cast<double>(found->asked_leaves) / answer.draws);
  answer.too_long = Probability(static_cast<double>(none) / answer.draws);
  answer.stiff_mild = {
      true, constants::trade::stiff_least.value.si(), constants::trade::stiff_most.value.si()};
  answer.liquid_sour = {
      false, constants::trade::liquid_least.value.si(), constants::trade::liquid_most.value.si()};
  answer.starter_is_stiff = is_stiff(*book);
  answer.oven = middle_of(found->at_the_oven);
  return std::optional(std::move(answer));
}

}  // namespace barm::forecast

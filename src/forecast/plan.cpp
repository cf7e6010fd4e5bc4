#include "forecast/plan.h"

#include <algorithm>

#include "generated/constants.h"

namespace barm::forecast {

using formula::Stage;
using formula::Step;

namespace {

constexpr Time never_ends = 1e4 * hour;

void add_a_bulk(Plan& plan) {
  auto& stages = plan.bake.stages;
  const auto comes_after = [](const Stage& stage) {
    return formula::row(stage.step).along > formula::row(Step::bulk).along;
  };
  const auto before = std::find_if(stages.begin(), stages.end(), comes_after);
  const auto at = before - stages.begin();
  stages.insert(before, Stage{});
  plan.in_file.insert(plan.in_file.begin() + at, std::nullopt);
}

void lasts(Stage& stage, Time time) {
  stage.lasts = std::max(Time{}, time);
  stage.until.reset();
}

// Holds fixed what is done: walks the stages with the hour up to which everything is known.
class Holding {
 public:
  Holding(Plan& plan, const std::vector<Done>& done) : plan_(plan), done_(done) {
    for (const Done& one : done) last_ = std::max(last_, place_of(one.stage) + 1);
  }

  void hold() {
    Time begin;
    for (std::size_t i = 0; i < last_; ++i) {
      Stage& stage = plan_.bake.stages[i];
      plan_.done[i] = 1;
      if (stage.step == Step::bulk) bulk_began_ = begin;
      const auto at = ended(i);
      if (stage.step == Step::fold && at) stage.after = std::max(Time{}, *at - bulk_began_);
      if (!formula::stands(stage.step)) continue;
      const auto end = at ? at : ended_by_another(i);
      // Two that nobody parted: the first as it was meant, where it says how long.
      if (end) lasts(stage, *end - begin);
      begin += stage.lasts.value_or(Time{});
    }
  }

 private:
  [[nodiscard]] std::size_t place_of(std::size_t in_file) const {
    for (std::size_t i = 0; i < plan_.in_file.size(); ++i) {
      if (plan_.in_file[i] == in_file) return i;
    }
    return 0;
  }

  // When the stage itself was ticked off; the last time counts.
  [[nodiscard]] std::optional<Time> ended(std::size_t i) const {
    std::optional<Time> at;
    for (const Done& one : done_) {
      if (plan_.in_file[i] == one.stage) at = std::max(one.at, at.value_or(one.at));
    }
    return at;
  }

  // By the first handling behind it that was ticked off, or, where a stage that takes time comes
  // before any, at the latest by that.
  [[nodiscard]] std::optional<Time> ended_by_another(std::size_t i) const {
    const Stage& stage = plan_.bake.stages[i];
    for (std::size_t k = i + 1; k < last_; ++k) {
      const Step step = plan_.bake.stages[k].step;
      if (step == Step::fold) continue;
      const auto at = ended(k);
      if (formula::stands(step)) return stage.lasts ? std::nullopt : at;
      if (at) return at;
    }
    return std::nullopt;
  }

  Plan& plan_;
  const std::vector<Done>& done_;
  std::size_t last_ = 0;  // one behind the last stage done
  Time bulk_began_;
};

}  // namespace

Plan Plan::of(const formula::Bake& bake, const Options& options) {
  Plan plan{bake, {}, {}};
  for (std::size_t i = 0; i < bake.stages.size(); ++i) plan.in_file.emplace_back(i);
  if (bake.bulk() == nullptr) add_a_bulk(plan);
  plan.done.assign(plan.bake.stages.size(), 0);
  if (options.target > 0) plan.bake.target = options.target;
  const auto bulk = std::find_if(plan.bake.stages.begin(),
                                 plan.bake.stages.end(),
                                 [](const Stage& stage) { return stage.step == Step::bulk; });
  if (options.temperature) bulk->temperature = *options.temperature;
  if (bulk->until) bulk->until = plan.bake.target;
  std::vector<Done> known;
  for (const Done& one : options.done) {
    if (one.stage < bake.stages.size()) known.push_back(one);
  }
  Holding(plan, known).hold();
  return plan;
}

Plan to_its_target(Plan plan) {
  for (Stage& stage : plan.bake.stages) {
    if (&stage != plan.bake.bulk()) continue;
    stage.until = plan.bake.target;
    stage.lasts.reset();
  }
  return plan;
}

Time bulk_begins(const formula::Bake& bake) {
  const Stage* bulk = bake.bulk();
  Time begin;
  for (const Stage& stage : bake.stages) {
    if (&stage == bulk) break;
    if (formula::stands(stage.step)) begin += stage.lasts.value_or(never_ends);
  }
  return bulk != nullptr ? begin : Time{};
}

std::vector<Handling> folds_of(const formula::Bake& bake) {
  const Stage* bulk = bake.bulk();
  const Time begin = bulk_begins(bake);
  std::vector<Handling> folds;
  bool inside = false;
  for (const Stage& stage : bake.stages) {
    if (inside && stage.step != Step::fold) break;
    if (inside && stage.after)
      folds.push_back({begin + *stage.after, constants::gas::fold_out.value.si()});
    inside = inside || &stage == bulk;
  }
  std::sort(
      folds.begin(), folds.end(), [](const Handling& a, const Handling& b) { return a.at < b.at; });
  return folds;
}

}  // namespace barm::forecast

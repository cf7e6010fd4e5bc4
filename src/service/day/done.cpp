#include "service/day/done.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ranges>

namespace barm::service {

namespace {

using formula::Step;
using StepNames = std::vector<std::string>;

constexpr Time fold_let_go_after = 0.5 * hour;  // as forecast::Timeline::next()

time::Instant later_by(time::Instant from, Time time) { return from + std::llround(time.si()); }

bool has_stage(const formula::Bake& bake, Step step) {
  return std::any_of(bake.stages.begin(), bake.stages.end(), [&](const formula::Stage& each) {
    return each.step == step;
  });
}

std::string step_after_bulk(const formula::Bake& bake) {
  return has_stage(bake, Step::divide) ? "divide" : "shape";
}

/// The planner's step that begins as a stage ends where the dough stands.
std::string step_after(const formula::Bake& bake, std::size_t stage) {
  const Step step = bake.stages[stage].step;
  if (step == Step::bulk) return step_after_bulk(bake);
  if (step == Step::cold) return "load";
  for (std::size_t i = stage + 1; i < bake.stages.size(); ++i) {
    if (formula::is_handled(bake.stages[i].step)) return std::string(name(bake.stages[i].step));
  }
  return has_stage(bake, Step::cold) ? "chill" : "load";
}

/// The planner's step that a stage, when it is done, says has begun.
std::string step_begun_by(const formula::Bake& bake, std::size_t stage, const std::string& fold) {
  using Kind = formula::StepKind;
  const formula::StepRow& row = formula::row(bake.stages[stage].step);
  switch (row.kind) {
    case Kind::mixed:
    case Kind::handled:
      return std::string(row.name);
    case Kind::inside:
      return fold;
    case Kind::stands:
      return step_after(bake, stage);
    case Kind::baked:  // lies behind the stages of the file
      break;
  }
  return "";
}

/// In the order in which the planner lays them (service/day/steps.cpp).
StepNames steps_in_order(const formula::Bake& bake, int folds) {
  StepNames out{"feed", "mix"};
  for (int fold = 1; fold <= folds; ++fold)
    out.push_back(fold == 1 ? "fold" : fmt::format("fold {}", fold));
  for (const char* what : {"divide", "shape", "chill", "load"}) out.emplace_back(what);
  std::erase_if(out, [&](const std::string& what) {
    return (what == "feed" && !(bake.levain && bake.levain->since_feeding)) ||
           (what == "divide" && !has_stage(bake, Step::divide)) ||
           (what == "chill" && !has_stage(bake, Step::cold));
  });
  return out;
}

}  // namespace

std::map<std::string, time::Instant> steps_done(const KnownBake& known, time::Instant begins) {
  std::map<std::string, time::Instant> done;
  const auto mixed = known.mixed();
  if (!mixed) return done;
  const formula::Bake& bake = known.bake;
  done["mix"] = *mixed;
  if (bake.levain && bake.levain->since_feeding) {
    done["feed"] =
        later_by(*mixed, -1.0 * (*bake.levain->since_feeding + bake.levain->in_the_cold));
  }
  int folds = 0;
  for (std::size_t stage = 0; stage < bake.stages.size(); ++stage) {
    const formula::Stage& each = bake.stages[stage];
    const bool planned_fold = each.step == Step::fold && each.after;
    if (planned_fold) ++folds;
    const std::string fold = folds == 1 ? "fold" : fmt::format("fold {}", folds);
    const auto ticked = std::find_if(known.ticked.begin(),
                                     known.ticked.end(),
                                     [&](const forecast::Done& one) { return one.stage == stage; });
    if (ticked != known.ticked.end()) {
      done.try_emplace(step_begun_by(bake, stage, fold), later_by(*mixed, ticked->at));
    } else if (planned_fold && later_by(*mixed, *each.after + fold_let_go_after) < begins) {
      done.try_emplace(fold, later_by(*mixed, *each.after));
    }
  }
  const StepNames order = steps_in_order(bake, folds);
  std::optional<time::Instant> next;
  for (const std::string& step : order | std::views::reverse) {
    const auto found = done.find(step);
    if (found != done.end() && next && found->second > *next) found->second = *next;
    if (found != done.end()) next = found->second;
    if (found == done.end() && next) done[step] = *next;
  }
  return done;
}

}  // namespace barm::service

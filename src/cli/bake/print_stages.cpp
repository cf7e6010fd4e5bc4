#include "cli/bake/print_stages.h"

#include <fmt/format.h>

#include <algorithm>

#include "service/bake/cold.h"
#include "service/bake/head.h"
#include "service/oven/words.h"
#include "service/words.h"

namespace barm::cli {

namespace {

std::string between(const forecast::Range& range, int digits) {
  const std::string low = fmt::format("{:.{}f}", range.p10, digits);
  const std::string high = fmt::format("{:.{}f}", range.p90, digits);
  return low == high ? low : low + " to " + high;
}

// How warm it is goes without saying where it is as warm as the place it stands in.
std::string warmth_after(const forecast::StageTimes& stage, const formula::Bake& bake) {
  const Temperature place =
      stage.in_file ? bake.stages[*stage.in_file].temperature : bake.bulk_temperature();
  const std::string told = between(stage.celsius, 0);
  return told == fmt::format("{:.0f}", place.celsius()) ? "" : fmt::format(", {} °C", told);
}

std::string state_after(const forecast::StageTimes& stage, const formula::Bake& bake, int draws) {
  if (stage.reached.value() < 0.5)
    return service::odds(stage.reached, draws) + " get through it in time";
  std::string state = fmt::format("{} times, pH {}", between(stage.rise, 1), between(stage.ph, 1));
  return stage.room_left.p50 < 0.05 ? state + "; holds no more" : state + warmth_after(stage, bake);
}

// The last two stages, which no dough goes through but a loaf.
bool print_baking(Paper& paper,
                  const forecast::StageTimes& stage,
                  const service::OvenAnswer& oven,
                  const forecast::Timeline& timeline,
                  const time::WallClock& clock) {
  const auto about = [&](const forecast::Spread& spread) {
    return service::about_when(spread, clock, timeline.horizon);
  };
  if (stage.step == formula::Step::oven && stage.load > 1) {
    paper.item(fmt::format("        oven {}", stage.load),
               fmt::format("in {}, {}; out {}",
                           about(stage.begin),
                           service::as_it_goes_in(oven, stage.load),
                           about(stage.end)),
               18);
    return true;
  }
  if (stage.step == formula::Step::oven) {
    paper.item("        oven",
               fmt::format("{}{}, {}: {}; out {}",
                           oven.with.empty() ? "" : oven.with + ": ",
                           service::how_to_load(oven),
                           service::how_long(oven),
                           service::as_it_comes_out(oven),
                           about(stage.end)),
               18);
    return true;
  }
  if (stage.step != formula::Step::cooling) return false;
  for (const forecast::ToDo& one : timeline.to_do) {
    if (one.act != forecast::Act::cut || one.load != stage.load) continue;
    paper.item(stage.load > 1 ? fmt::format("        cooling {}", stage.load) : "        cooling",
               "cool enough to cut " + about(one.at) + ", to bag " + about(stage.end),
               18);
  }
  return true;
}

}  // namespace

void print_stages(Paper& paper, const StagesTold& told, const time::WallClock& clock) {
  const forecast::Timeline& timeline = told.timeline;
  const auto said = [](const forecast::StageTimes& stage) {
    const formula::StepKind kind = formula::row(stage.step).kind;
    return kind == formula::StepKind::stands || kind == formula::StepKind::baked;
  };
  if (std::count_if(timeline.stages.begin(), timeline.stages.end(), said) < 2) return;
  paper.heading("THE STAGES", "each ends, for 4 of 5 " + told.whose);
  for (const forecast::StageTimes& stage : timeline.stages) {
    if (!said(stage)) continue;
    if (told.oven && print_baking(paper, stage, *told.oven, timeline, clock)) continue;
    const std::string done = stage.done ? "done, " : "";
    paper.item("        " + std::string(formula::name(stage.step)),
               done + service::about_when(stage.end, clock, timeline.horizon) + ": " +
                   state_after(stage, told.bake, timeline.draws),
               18);
    if (timeline.out_of_the_cold && &stage == &timeline.stages[timeline.out_of_the_cold->stage])
      paper.item("", service::out_of_the_cold_in_words(timeline), 18);
  }
  paper.line();
}

}  // namespace barm::cli

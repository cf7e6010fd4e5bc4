#include "service/bake/head.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>

#include "service/bake/cold.h"
#include "service/internal/json_parts.h"
#include "service/internal/object.h"
#include "service/words.h"

namespace barm::service {

using forecast::Act;
using forecast::Spread;
using forecast::Timeline;
using forecast::ToDo;
using internal::object;
using nlohmann::json;

namespace {

constexpr std::array<std::string_view, 10> act_names{"mix",
                                                     "fold",
                                                     "divide",
                                                     "shape",
                                                     "into_the_cold",
                                                     "out_of_the_cold",
                                                     "into_the_oven",
                                                     "out_of_the_oven",
                                                     "cut",
                                                     "bag"};

const formula::Stage* stage_of(const ToDo& to_do,
                               const Timeline& timeline,
                               const formula::Bake& bake) {
  if (to_do.stage >= timeline.stages.size()) return nullptr;
  const auto in_file = timeline.stages[to_do.stage].in_file;
  return in_file && *in_file < bake.stages.size() ? &bake.stages[*in_file] : nullptr;
}

// The spread with the middle on the clock, where that has a day.
json dated(const Spread& spread, const time::WallClock& clock) {
  json out = internal::spread(spread);
  const std::string at = spread.p50 ? clock.iso(*spread.p50) : "";
  out["p50_at"] = at.empty() ? json() : json(at);
  return out;
}

json kept(const Spread& s) {
  return {internal::hours(s.p05),
          internal::hours(s.p10),
          internal::hours(s.p50),
          internal::hours(s.p90),
          internal::hours(s.p95)};
}

Spread spread_in(const json& five) {
  const auto at = [&](std::size_t i) -> std::optional<Time> {
    return five.at(i).is_number() ? std::optional(five.at(i).get<double>() * hour) : std::nullopt;
  };
  return {at(0), at(1), at(2), at(3), at(4)};
}

// The oven, and from there on what follows it.
std::optional<Act> waited_for(Act next) {
  switch (next) {
    case Act::into_the_oven:
      return Act::out_of_the_oven;
    case Act::out_of_the_oven:
      return Act::cut;
    case Act::cut:
      return Act::bag;
    case Act::bag:
      return std::nullopt;
    default:
      return Act::into_the_oven;
  }
}

// What a baker waits for behind the next thing.
std::optional<ToDo> then(const ToDo& next, const Timeline& timeline) {
  const auto wanted = waited_for(next.act);
  const int load = std::max(1, next.load);
  for (const ToDo& one : timeline.to_do) {
    if (one.act == wanted && std::max(1, one.load) == load) return one;
  }
  return std::nullopt;
}

// Which of the loads, where there are more.
std::string load_of(const ToDo& to_do, const Timeline& timeline) {
  int loads = 0;
  for (const forecast::StageTimes& stage : timeline.stages) loads = std::max(loads, stage.load);
  return loads > 1 && to_do.load > 0 ? fmt::format(", load {} of {}", to_do.load, loads) : "";
}

// What follows a thing that is overdue is as much later.
std::string after_that(Time wait) { return "about " + span(wait) + " after that"; }

}  // namespace

std::string_view name(Act act) { return act_names[static_cast<std::size_t>(act)]; }

std::string what_to_do(const ToDo& to_do, const Timeline& timeline, const formula::Bake& bake) {
  switch (to_do.act) {
    case Act::mix:
      return "mix";
    case Act::fold:
      return "fold";
    case Act::divide:
      return bake.pieces ? fmt::format("divide into {}", *bake.pieces) : "divide";
    case Act::shape:
      return "shape";
    case Act::into_the_cold: {
      const formula::Stage* stage = stage_of(to_do, timeline, bake);
      return stage ? "into the cold, " + warmth(stage->temperature) : "into the cold";
    }
    case Act::out_of_the_cold:
      return "out of the cold";
    case Act::into_the_oven:
      return "into the oven" + load_of(to_do, timeline);
    case Act::out_of_the_oven:
      return "out of the oven" + load_of(to_do, timeline);
    case Act::cut:
      return "cool enough to cut" + load_of(to_do, timeline);
    case Act::bag:
      return "cool enough to bag" + load_of(to_do, timeline);
  }
  return "";
}

std::string about_when(const Spread& spread, const time::WallClock& clock, Time horizon) {
  if (!spread.p50) return "not within " + span(horizon) + " for half of such doughs";
  std::string middle = clock.moment(*spread.p50);
  const std::string from = spread.p10 ? clock.moment(*spread.p10) : "";
  const std::string to = spread.p90 ? clock.moment(*spread.p90) : "open end";
  if (from == middle && to == middle) return middle;
  return fmt::format("about {} ({} to {})",
                     middle,
                     spread.p10 ? clock.short_moment(*spread.p10) : "",
                     spread.p90 ? clock.short_moment(*spread.p90) : to);
}

Head head_of(const Timeline& timeline,
             const formula::Bake& bake,
             const time::WallClock& clock,
             std::optional<Time> now) {
  Head head;
  head.oven = timeline.oven;
  const ToDo* next = timeline.next(now);
  if (next == nullptr) return head;
  head.next = *next;
  const bool missed = can_be_missed(next->act);
  const bool passed = now && next->at.p90 && *now > *next->at.p90;
  const bool overdue = passed && !missed;
  head.late = overdue || (now && !missed && !next->at.p50);
  head.next_words = what_to_do(*next, timeline, bake);
  if (overdue)
    head.next_words += ": overdue since " + clock.moment(*next->at.p90);
  else
    head.next_words += " " + (passed ? "now" : about_when(next->at, clock, timeline.horizon));
  head.words = head.next_words;
  head.then = then(*next, timeline);
  if (!head.then) return head;
  head.then_words =
      what_to_do(*head.then, timeline, bake) + " " +
      (overdue && head.then->at.p50 ? after_that(*head.then->at.p50 - *next->at.p50)
                                    : about_when(head.then->at, clock, timeline.horizon));
  head.words += " · " + head.then_words;
  return head;
}

void add_timeline(json& out,
                  const Timeline& timeline,
                  const formula::Bake& bake,
                  const time::WallClock& clock,
                  std::optional<Time> now) {
  const Head head = head_of(timeline, bake, clock, now);
  const auto act = [&](const std::optional<ToDo>& one) {
    if (!one) return json();
    json said = dated(one->at, clock);
    said["act"] = name(one->act);
    said["what"] = what_to_do(*one, timeline, bake);
    return said;
  };
  const bool oven_follows = head.then && head.then->act == Act::into_the_oven;
  out["head"] = object({{"words", head.words},
                        {"next_words", head.next_words},
                        {"oven_words", oven_follows ? head.then_words : ""},
                        {"then_words", head.then_words},
                        {"late", head.late},
                        {"next", act(head.next)},
                        {"then", act(head.then)},
                        {"oven", dated(head.oven, clock)}});
  json stages = json::array();
  for (const forecast::StageTimes& stage : timeline.stages) {
    stages.push_back(object({{"step", formula::name(stage.step)},
                             {"in_file", stage.in_file ? json(*stage.in_file) : json()},
                             {"done", stage.done},
                             {"load", stage.load > 0 ? json(stage.load) : json()},
                             {"begin", dated(stage.begin, clock)},
                             {"end", dated(stage.end, clock)},
                             {"chance", stage.reached.value()},
                             {"volume_ratio", internal::range(stage.rise)},
                             {"ph", internal::range(stage.ph)},
                             {"room_left", internal::range(stage.room_left)},
                             {"dough_C", internal::range(stage.celsius)}}));
  }
  out["stages"] = stages;
  json to_do = json::array();
  for (const ToDo& one : timeline.to_do) {
    json at = dated(one.at, clock);
    at["act"] = name(one.act);
    at["what"] = what_to_do(one, timeline, bake);
    at["done"] = one.done;
    at["load"] = one.load > 0 ? json(one.load) : json();
    to_do.push_back(std::move(at));
  }
  out["to_do"] = to_do;
  out["out_of_the_cold"] = out_of_the_cold_json(timeline);
  out["bread"] = json();
  if (!timeline.bread.empty()) {
    const forecast::Bread& first = timeline.bread.front();
    out["bread"] = object({{"out", dated(first.out, clock)},
                           {"cut", dated(first.cut, clock)},
                           {"bag", dated(first.bag, clock)}});
  }
}

std::string kept_text(const Timeline& timeline) {
  json to_do = json::array();
  for (const ToDo& one : timeline.to_do)
    to_do.push_back({static_cast<int>(one.act), one.stage, one.done, kept(one.at), one.load});
  json in_file = json::array();
  json loads = json::array();
  for (const forecast::StageTimes& stage : timeline.stages) {
    in_file.push_back(stage.in_file ? json(*stage.in_file) : json());
    loads.push_back(stage.load);
  }
  return object({{"ready", kept(timeline.ready)},
                 {"oven", kept(timeline.oven)},
                 {"horizon_h", timeline.horizon.in(hour)},
                 {"stages", in_file},
                 {"loads", loads},
                 {"to_do", to_do}})
      .dump();
}

std::optional<Timeline> kept_timeline(const std::string& text) {
  try {
    const json kept = json::parse(text);
    Timeline timeline;
    timeline.ready = spread_in(kept.at("ready"));
    timeline.oven = spread_in(kept.at("oven"));
    timeline.horizon = kept.at("horizon_h").get<double>() * hour;
    for (const json& in_file : kept.at("stages")) {
      forecast::StageTimes stage;
      if (in_file.is_number()) stage.in_file = in_file.get<std::size_t>();
      stage.load = kept.at("loads").at(timeline.stages.size()).get<int>();
      timeline.stages.push_back(stage);
    }
    for (const json& one : kept.at("to_do")) {
      const auto act = one.at(0).get<std::size_t>();
      if (act >= act_names.size()) return std::nullopt;
      timeline.to_do.push_back({static_cast<Act>(act),
                                one.at(1).get<std::size_t>(),
                                one.at(2).get<bool>(),
                                spread_in(one.at(3)),
                                one.at(4).get<int>()});
    }
    return timeline;
  } catch (const json::exception&) {
    return std::nullopt;
  }
}

}  // namespace barm::service

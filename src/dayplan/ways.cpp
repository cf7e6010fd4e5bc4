#include "dayplan/ways.h"

#include <algorithm>
#include <cmath>

#include "dayplan/window.h"

namespace barm::dayplan {

namespace {

constexpr unsigned dead_ends_alone = 20'000;
constexpr long worth_of_a_model = 20;  // dead ends that take as long as setting one up

}  // namespace

std::optional<long> cost_of(const Day& day, std::size_t bake, const Course& course) {
  long sum = 0;
  const Way& way = day.bakes[bake].ways[course.way];
  for (const Leg& leg : priced_legs(way)) {
    const double through =
        share(leg, begin_of(day.bakes[bake], course, leg.to) - course.begin[leg.from]);
    if (through <= 0) return std::nullopt;
    sum += std::lround(-cost_unit * std::log(through));
  }
  return sum;
}

Ways::Ways(const Day& day, std::vector<Pin> pins, std::function<bool()> cancelled)
    : day_(day), pins_(std::move(pins)), cancelled_(std::move(cancelled)) {}

void Ways::look_at_each(const std::function<void(double)>& progress) {
  alone_.assign(day_.bakes.size(), std::nullopt);
  surely_.assign(day_.bakes.size(), true);
  for (std::size_t b = 0; b < day_.bakes.size(); ++b) {
    std::optional<long> best;
    cost_alone_.emplace_back();
    for (std::size_t w = 0; w < day_.bakes[b].ways.size(); ++w) {
      Search search;
      search.bakes = {{b, w, nullptr}};
      search.pins = pins_;
      search.failures = dead_ends_alone;
      search.cancelled = cancelled_;
      const Found found = lay(day_, search);
      surely_[b] = surely_[b] && found.finished;
      cost_alone_[b].push_back(found.courses.empty() ? std::nullopt : std::optional(found.cost));
      if (found.courses.empty() || (best && found.cost >= *best)) continue;
      best = found.cost;
      alone_[b] = found.courses.front();
    }
    if (progress) progress(static_cast<double>(b + 1) / static_cast<double>(day_.bakes.size()));
  }
}

std::vector<std::pair<long, Ways::Choice>> Ways::choices(
    const std::vector<std::size_t>& bakes) const {
  std::vector<std::pair<long, Choice>> all{{0, {}}};
  for (const std::size_t b : bakes) {
    std::vector<std::pair<long, Choice>> longer;
    for (const auto& [cost, choice] : all) {
      for (std::size_t w = 0; w < cost_alone_[b].size(); ++w) {
        if (!cost_alone_[b][w]) continue;
        longer.emplace_back(cost + *cost_alone_[b][w], choice);
        longer.back().second.push_back(w);
      }
    }
    all = std::move(longer);
  }
  std::stable_sort(
      all.begin(), all.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  return all;
}

Ways::Laying Ways::lay_anew(Lying& lying,
                            const std::vector<std::size_t>& bakes,
                            std::optional<long> below,
                            std::optional<unsigned> failures,
                            std::optional<std::size_t> first_by) {
  Laying out;
  out.finished = true;
  const auto is_new = [&](std::size_t b) {
    return std::find(bakes.begin(), bakes.end(), b) != bakes.end();
  };
  const Lying old = lying;
  for (const auto& [least_cost, choice] : choices(bakes)) {
    if (below && least_cost >= *below) break;
    if (first_by && choice.front() != *first_by) continue;
    if (failures && left_ <= 0) {
      out.finished = false;
      break;
    }
    Search search;
    for (std::size_t i = 0; i < bakes.size(); ++i)
      search.bakes.push_back({bakes[i], choice[i], nullptr});
    for (std::size_t b = 0; b < old.size(); ++b) {
      if (old[b] && !is_new(b)) search.bakes.push_back({b, old[b]->way, &old[b]->begin});
    }
    search.pins = pins_;
    search.below = below;
    search.failures = failures;
    search.cancelled = cancelled_;
    const Found found = lay(day_, search);
    out.finished = out.finished && found.finished;
    left_ -= found.dead_ends + worth_of_a_model;
    if (found.courses.empty()) continue;
    out.found = true;
    out.cost = found.cost;
    below = found.cost;
    for (std::size_t i = 0; i < bakes.size(); ++i) lying[bakes[i]] = found.courses[i];
  }
  return out;
}

long Ways::least(const std::vector<std::size_t>& bakes) const {
  long sum = 0;
  for (const std::size_t b : bakes) {
    long best = 0;
    bool any = false;
    for (const auto& cost : cost_alone_[b]) {
      if (!cost || (any && *cost >= best)) continue;
      best = *cost;
      any = true;
    }
    sum += best;
  }
  return sum;
}

}  // namespace barm::dayplan

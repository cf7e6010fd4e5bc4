#include "dayplan/due.h"

#include <algorithm>

namespace barm::dayplan {

namespace {

bool comes_through(const Day& day,
                   const Bake& bake,
                   const Course& course,
                   std::size_t k,
                   std::vector<double>& begun) {
  const Way& way = bake.ways[course.way];
  for (std::size_t i = 0; i < way.steps.size(); ++i) {
    const Step& step = way.steps[i];
    if (step.begun) {
      begun[i] = *step.begun;
      continue;
    }
    const Due when = due(way, i, k, begun.data());
    begun[i] = next_open(day, step, turned_to(when, course.begin[i]));
    if (begun[i] > when.latest) return false;
  }
  const Due bread = due(way, way.steps.size(), k, begun.data());
  return bread.ready <= bake.wanted && bake.wanted <= bread.latest;
}

}  // namespace

Due due(const Way& way, std::size_t to, std::size_t k, const double* begun) {
  Due out;
  if (to > 0) out.ready = begun[to - 1] + way.steps[to - 1].minutes;
  for (std::size_t l = 0; l < way.legs.size(); ++l) {
    const Leg& leg = way.legs[l];
    if (leg.to != to) continue;
    out.sure = out.sure && (leg.known() || leg.watched);
    const double ready = begun[leg.from] + static_cast<double>(draw(leg.ready, k));
    const double latest = ready + static_cast<double>(draw(leg.lasts, k));
    out.ready = std::max(out.ready, ready);
    if (latest >= out.latest) continue;
    out.latest = latest;
    out.leg = l;
  }
  return out;
}

double turned_to(const Due& due, double planned) {
  if (planned <= due.ready) return due.ready;
  if (planned <= due.latest) return planned;
  return std::max(due.ready, due.ready + (due.latest - due.ready) / 2);
}

std::size_t through_alone(const Day& day, std::size_t bake, const Course& course) {
  const std::size_t draws = draws_of(day);
  std::vector<double> begun(course.begin.size());
  std::size_t through = 0;
  for (std::size_t k = 0; k < draws; ++k) {
    if (comes_through(day, day.bakes[bake], course, k, begun)) ++through;
  }
  return through;
}

}  // namespace barm::dayplan
